#include "tests/fuzz/run_readers.h"

#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "postprocess/card/card_runs.h"
#include "postprocess/report/index_page.h"
#include "postprocess/report/report_page.h"
#include "postprocess/runs/gathered_runs.h"
#include "postprocess/runs/run_comparison.h"
#include "postprocess/runs/run_table.h"
#include "postprocess/study/study_page.h"
#include "solver/record/run_folder.h"
#include "solver/record/surface_record.h"
#include "solver/record/travel_record.h"
#include "solver/study/file/study_file.h"

#include <array>

namespace throughbend
{
namespace
{
/// What a library says in its own words, and what no user can act on.
constexpr std::array<std::string_view, 14> bare_words = {
    "std::",   "json.exception",  "boost",     "basic_",
    "map::at", "vector::",        "bad_alloc", "stoi",
    "stod",    "stoul",           "vtk",       "VTK",
    "regex",   "filesystem error"};

/// Without what is quoted from the file, where any word may stand.
std::string without_quotes(const std::string &words)
{
  std::string rest;
  char        open = 0; // only the same kind of quote closes
  for (const char c : words)
    if (open == 0 && (c == '\'' || c == '"'))
      open = c;
    else if (c == open)
      open = 0;
    else if (open == 0)
      rest += c;
  return rest;
}

class Readers
{
public:
  Readers(const std::string &folder, const std::string &secret)
      : folder_(folder), secret_(secret)
  {
  }

  template <class Work>
  void call(const std::string &verb, const Work &work)
  {
    try
    {
      work();
    }
    catch (const InputError &error)
    {
      ++result.refusals;
      check_message(verb, error.what());
    }
    catch (const std::exception &error)
    {
      result.faults.push_back(verb + " ends with exit code 5: " + error.what());
    }
  }

  void check_page(const std::string &verb, const std::string &page)
  {
    if (const auto at = find_binary_byte(page))
      result.faults.push_back(verb + ": the page is no UTF-8 text at its byte " +
                              std::to_string(*at));
    if (page.find(secret_) != std::string::npos)
      result.faults.push_back(verb + ": a text from outside of the run is on the page");
  }

  ReaderFaults result;

private:
  void check_message(const std::string &verb, const std::string &words)
  {
    // The scratch folder's name is random, and may hold any of the words.
    std::string ours = without_quotes(words);
    for (auto at = ours.find(folder_); at != std::string::npos; at = ours.find(folder_))
      ours.erase(at, folder_.size());
    for (const std::string_view bare : bare_words)
      if (ours.find(bare) != std::string::npos)
        result.faults.push_back(verb + " says in a library's words: " + words);
    const bool has_place = words.find(folder_) != std::string::npos ||
                           words.find(".json") != std::string::npos ||
                           words.find(".csv") != std::string::npos ||
                           words.find(".db") != std::string::npos;
    // Two sentences: what is wrong, and the cure.
    if (!has_place || words.find(". ") == std::string::npos)
      result.faults.push_back(verb + " tells no file or no cure: " + words);
  }

  std::string folder_, secret_;
};
} // namespace

WholeRun whole_run(const std::filesystem::path &folder)
{
  WholeRun whole;
  if (is_study(folder)) // which nothing is compared with
    return whole;
  whole.run = read_run_record(folder);
  if (whole.run.known_case)
    whole.limits = case_limits(*whole.run.known_case);
  return whole;
}

ReaderFaults read_as_verbs_do(const std::filesystem::path &folder, const WholeRun &whole,
                              const std::string &secret, const Pictures pictures)
{
  Readers     readers(folder.string(), secret);
  ReportOrder order;
  order.runs     = {folder.string()};
  order.pictures = pictures;
  order.index    = pictures == Pictures::drawn ? "index.html" : "";
  if (is_study(folder))
  {
    readers.call("report",
                 [&]
                 {
                   const StudyRecord study = read_study(folder);
                   const StudyPage   page  = make_study_page(study, UnitSystem::metric);
                   readers.check_page("report", page.page);
                 });
    return readers.result;
  }
  readers.call("report",
               [&]
               {
                 const ReportedRun reported =
                     reported_run(folder.string(), order, ReaderUnits(UnitSystem::metric));
                 readers.check_page("report",
                                    make_report({reported}, "", UnitSystem::metric).page);
                 if (pictures == Pictures::left_out || !reported.telling)
                   return;
                 IndexPage index("index.html", "", UnitSystem::us);
                 index.add(reported, folder / "report.html");
                 readers.check_page("report --index", index.html());
               });
  readers.call("gather",
               [&]
               {
                 const GatheredRuns gathered = gathered_runs({folder.string()});
                 table_csv(gathered.runs, FigureChoice::all);
                 table_text(gathered.runs, UnitSystem::metric);
               });
  readers.call("compare", [&] { compared_runs(whole.run, read_run_summary(folder)); });
  if (whole.run.known_case)
    readers.call("card",
                 [&] { card_run(folder.string(), *whole.run.known_case, *whole.limits); });
  readers.call("resume", [&] { run_to_resume(folder); });
  readers.call("resume", [&] { read_travel_record(folder / "travel.csv"); });
  readers.call("resume", [&] { read_surface_record(folder / "surface.csv"); });
  return readers.result;
}
} // namespace throughbend
