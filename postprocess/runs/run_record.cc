#include "postprocess/runs/run_record.h"

#include "inputs/keys/case_text.h"
#include "inputs/keys/stored_case.h"
#include "inputs/text/input_error.h"
#include "inputs/text/run_file.h"
#include "inputs/units/display_units.h"
#include "postprocess/runs/recorded_case.h"
#include "solver/record/run_format.h"
#include "solver/record/summary_file.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace throughbend
{
namespace
{
namespace fs                 = std::filesystem;
constexpr double not_a_value = std::numeric_limits<double>::quiet_NaN();

void read_summary(RunRecord &run)
{
  SummaryFile file = read_summary_file(run.folder);
  run.summary      = std::move(file.members);
  if (!file.missing.empty())
    run.missing.push_back(file.missing + ": no finding and no key figures.");
}

std::string name_of(const fs::path &folder)
{
  const fs::path whole = fs::absolute(folder).lexically_normal();
  // The name of a path that ends in a slash is empty.
  return (whole.has_filename() ? whole : whole.parent_path()).filename().string();
}

/// Inputs from run.json in the place of case.ini's, as far as it has them.
void tell_recorded(RunRecord &run, const std::string &why)
{
  run.known_case = recorded_case(run.summary);
  if (run.known_case)
    run.case_text = effective_text(*run.known_case);
  run.missing.push_back(
      why + (run.known_case ? "those that run.json recorded." : "shown as they stand."));
}

/// A case.ini that was changed since the run tells of a pass that was not made.
void compare_stored_case(RunRecord &run)
{
  constexpr std::size_t most_listed = 6;
  run.changed                       = changes_since_run(*run.known_case, run.summary);
  if (run.changed.empty())
    return;
  if (run.changed.size() > most_listed)
  {
    const std::size_t more = run.changed.size() - most_listed;
    run.changed.resize(most_listed);
    run.changed.push_back("and " + std::to_string(more) + " more keys");
  }
  run.case_text.clear(); // not to be shown as what was pushed
  std::string list;
  for (const std::string &change : run.changed)
    list += (list.empty() ? "" : "; ") + change;
  run.known_case = recorded_case(run.summary);
  run.missing.push_back("case.ini was changed after the run (" + list + "): inputs are " +
                        (run.known_case ? "those that run.json recorded." : "not known."));
  if (run.known_case)
    run.case_text = effective_text(*run.known_case);
}

void read_stored_case(RunRecord &run)
{
  std::optional<std::string> text =
      run_file_text(run.folder, "case.ini", run_file_size::given);
  if (!text)
  {
    run.missing.emplace_back("case.ini is not there or cannot be read: no inputs.");
    return;
  }
  run.case_text  = std::move(*text);
  run.known_case = stored_case(run.case_text, "case.ini").value;
  if (run.known_case)
    compare_stored_case(run);
  else
    tell_recorded(run, "case.ini is no case that this version can read: inputs are ");
}

void read_travel(RunRecord &run)
{
  const std::string none = "travel.csv is not there or cannot be read: no charts of the "
                           "pass, no force along the "
                           "travel.";
  const auto        text = run_file_text(run.folder, "travel.csv", run_file_size::table);
  if (!text)
  {
    run.missing.push_back(none);
    return;
  }
  try
  {
    CsvTable table = CsvTable::of_text(*text, (run.folder / "travel.csv").string());
    table.index_of("travel [mm]");
    table.index_of("ram force [N]");
    if (table.rows() > 0)
      run.travel = std::move(table);
    else
      run.missing.emplace_back("travel.csv holds no step yet: no charts.");
  }
  catch (const InputError &)
  {
    run.missing.push_back(none);
  }
}

/// A table that ends before the run did has lost its rows since.
void compare_lengths(RunRecord &run)
{
  constexpr double slack = 0.01; // [mm], of numbers written with few digits
  const double     whole = run.number("key_figures.largest_travel_mm");
  if (run.travel && std::isfinite(whole) && run.last_travel() < whole - slack)
    run.missing.push_back(
        "travel.csv ends at " + length_text(run.last_travel(), UnitSystem::metric) +
        " of travel and the run at " + length_text(whole, UnitSystem::metric) +
        ": it is cut off, and charts end there.");
}

std::size_t largest_at(const std::vector<double> &values)
{
  return static_cast<std::size_t>(std::max_element(values.begin(), values.end()) -
                                  values.begin());
}
} // namespace

std::vector<double> RunRecord::column(const std::string &head) const
{
  if (!travel || travel->rows() == 0)
    return {};
  const auto &heads = travel->heads();
  if (std::find(heads.begin(), heads.end(), head) == heads.end())
    return {};
  std::vector<double> values = travel->numbers(head);
  if (std::find(heads.begin(), heads.end(), "kind") != heads.end() &&
      travel->words("kind").back() == "release")
    values.pop_back();
  return values;
}

std::string RunRecord::title() const
{
  if (known_case && !known_case->title.empty())
    return known_case->title;
  const std::string recorded = word("title");
  return recorded.empty() ? name : recorded;
}

bool RunRecord::complete() const
{
  const std::string outcome = word("finding.outcome");
  return missing.empty() && word("state") == "finished" && !outcome.empty() &&
         outcome != "undecided";
}

std::string how_to_resume(const RunRecord &run)
{
  const std::filesystem::path folder = run.folder / checkpoint_folder;
  std::error_code             none;
  if (run.word("state") == "finished" ||
      (!std::filesystem::exists(folder / "a.state", none) &&
       !std::filesystem::exists(folder / "b.state", none)))
    return "";
  const std::string words = "throughbend push --resume " + run.folder.string();
  return run.word("state") == "running" ? "If it was killed, continue it with: " + words
                                        : "To continue it: " + words;
}

bool RunRecord::right_half() const
{
  const std::string model = word("made_with.model");
  return model == "half" || model == "quarter"; // a quarter: half of the width as well
}

double RunRecord::peak_force() const
{
  const double recorded = number("key_figures.peak_ram_force_N");
  if (std::isfinite(recorded))
    return recorded;
  const std::vector<double> force = column("ram force [N]");
  return force.empty() ? not_a_value : force[largest_at(force)];
}

double RunRecord::peak_force_travel() const
{
  const double recorded = number("key_figures.peak_ram_force_travel_mm");
  if (std::isfinite(recorded))
    return recorded;
  const std::vector<double> force = column("ram force [N]");
  return force.empty() ? not_a_value : column("travel [mm]")[largest_at(force)];
}

double RunRecord::last_travel() const
{
  const std::vector<double> way = column("travel [mm]");
  if (!way.empty())
    return way.back();
  return number("key_figures.largest_travel_mm");
}

RunRecord read_run_record(const fs::path &folder)
{
  std::error_code fault; // a link to itself is no folder, and no reason to stop here
  if (!fs::is_directory(folder, fault))
    throw InputError(folder.string() +
                     (fs::exists(folder, fault) ? ": that is a file, no folder."
                                                : ": there is no such folder.") +
                     " Name the folder of a run, as throughbend push prints it.");
  const auto has = [&](const char *file)
  { return fs::exists(fs::symlink_status(folder / file, fault)); };
  if (!has("run.json") && !has("travel.csv"))
    throw InputError(folder.string() +
                     ": this is no run folder: it has neither run.json nor "
                     "travel.csv. Name a folder made by throughbend push.");
  RunRecord run;
  run.folder = folder;
  run.name   = name_of(folder);
  read_summary(run);
  read_stored_case(run);
  read_travel(run);
  compare_lengths(run);
  if (!has("surface.csv"))
    run.missing.emplace_back(
        "surface.csv is not there: strains along the face are those of "
        "the kept shapes only.");
  return run;
}

RunRecord read_run_summary(const fs::path &folder)
{
  const std::string place = folder.string() + ": ";
  std::error_code   fault;
  if (!fs::exists(fs::symlink_status(folder / "run.json", fault)))
    throw InputError(place +
                     "there is no run.json in it. Name a folder made by throughbend push.");
  RunRecord run;
  run.folder = folder;
  run.name   = name_of(folder);
  read_summary(run);
  if (!run.missing.empty())
    throw InputError(place + run.missing.front() + " Push the case again.");
  if (const std::string other = format_fault(run.summary); !other.empty())
    throw InputError(place + other);
  run.known_case = recorded_case(run.summary);
  return run;
}

std::vector<const Case *> cases_of(const std::vector<RunRecord> &runs)
{
  std::vector<const Case *> cases;
  for (const RunRecord &run : runs)
    cases.push_back(run.known_case ? &*run.known_case : nullptr);
  return cases;
}
} // namespace throughbend
