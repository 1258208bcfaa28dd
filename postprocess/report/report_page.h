#pragma once
// Puts a report together: reads the runs, has pictures and charts drawn, and fills the
// page's templates. One HTML text comes out that needs no other file.

#include "postprocess/report/reported_run.h"

namespace throughbend
{
struct Report
{
  std::string              page;  ///< the HTML
  std::vector<std::string> notes; ///< what is incomplete, for the terminal
};

/// The page of one run, or of several compared. Without a title one is chosen by the runs.
Report make_report(const std::vector<ReportedRun> &all, const std::string &title,
                   UnitSystem first);
} // namespace throughbend
