#pragma once
// One page that leads to the reports of many runs, as for a class: a table of all findings,
// then each run with its picture, its lesson and a few figures, under the chapters that
// their cases name. Holds its pictures; the reports it links to are pages of their own.

#include "postprocess/report/reported_run.h"

#include <filesystem>

namespace throughbend
{
/// The page being put together, a run at a time, so that only one run's shapes need be
/// held.
class IndexPage
{
public:
  /// `file` is where the page will be: addresses count from its folder.
  IndexPage(const std::filesystem::path &file, const std::string &title, UnitSystem first);

  /// `report` is the file of the run's own page. The run stands under its chapter, after
  /// those that were added before.
  void add(const ReportedRun &reported, const std::filesystem::path &report);

  std::string html() const;

private:
  struct Chapter
  {
    std::string heading, entries;
  };

  std::filesystem::path    folder_;
  std::string              title_;
  ReaderUnits              units_;
  std::vector<std::string> heads_, rows_; ///< of the table of all findings
  std::vector<Chapter>     chapters_;
};
} // namespace throughbend
