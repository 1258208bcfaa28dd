#include "solver/app/gather_verb.h"

#include "inputs/csv_table.h"
#include "inputs/gathered_runs.h"
#include "inputs/input_error.h"
#include "inputs/own_file.h"
#include "inputs/run_standing.h"
#include "inputs/run_table.h"
#include "inputs/shown_text.h"
#include "inputs/whole_file.h"
#include "solver/app/help.h"

#include <fmt/core.h>

#include <fstream>
#include <iostream>
#include <iterator>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

constexpr std::size_t most_named  = 100000;
const std::string     to_terminal = "-"; // in place of a file's name

/// Throws unless the table may be written there: a new file, or a table of ours to which
/// nobody has added a column.
void check_out(const std::string &out, const GivenWords &given)
{
  const ForeignFile foreign =
      given.has("overwrite") ? ForeignFile::replace : ForeignFile::keep;
  check_place("out", out, table_mark, foreign);
  std::error_code fault;
  if (foreign == ForeignFile::replace || !fs::exists(out, fault))
    return;
  std::ifstream in(out, std::ios::binary);
  std::string   heads;
  std::getline(in, heads);
  if (!is_run_table(heads + "\n"))
    throw InputError("--out " + out +
                     ": the file is there already, and its columns are not all those of "
                     "gather. Choose another name, or add --overwrite to replace it.");
}

/// What is not in the table, or has no figures there, a line each.
std::vector<std::string> lacking(const GatheredRuns &gathered)
{
  std::vector<std::string> lines;
  for (const std::string &reason : gathered.left_out)
    lines.push_back("left out: " + reason);
  for (const RunRecord &run : gathered.runs)
  {
    if (const std::string why = why_no_finding(run); !why.empty())
      lines.push_back("no figures: " + run.folder.string() + ": " + why);
    if (!run.told)
      lines.push_back("no case: " + run.folder.string() +
                      ": its case is none that this version can read.");
  }
  return lines;
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  const GivenWords given = given_words(gather_verb(), words);
  if (given.help)
    return show(verb_help(gather_verb()));
  if (given.operands.empty())
    throw InputError(
        "gather which runs? Name their folders, or the folder that holds them: "
        "throughbend gather runs --out runs.csv");
  const std::string out = given.value("out");
  if (given.has("out") && out.empty())
    throw InputError("--out names no file: --out runs.csv");
  if (given.has("overwrite") && (out.empty() || out == to_terminal))
    throw InputError("--overwrite is for a file: --out runs.csv --overwrite");
  if (given.has("all") && out.empty())
    throw InputError(
        "--all is for the table: --out runs.csv --all, or --out - to print it.");
  if (!out.empty() && out != to_terminal)
    check_out(out, given);

  const GatheredRuns gathered = gathered_runs(given.operands);
  const std::string  csv =
      table_csv(gathered.runs, given.has("all") ? FigureChoice::all : FigureChoice::usual);
  const std::vector<std::string> missing = lacking(gathered);
  if (speaks())
  {
    for (const std::string &note : gathered.passed_over)
      std::cerr << "note: " << shown_text(note) << '\n';
    for (const std::string &line : missing)
      std::cerr << shown_text(line) << '\n';
    if (!out.empty() && out != to_terminal)
      write_named_file("--out", out, csv);
  }
  if (out == to_terminal)
    show(csv);
  else
  {
    show(shown_lines(table_text(gathered.runs, units_of(given))));
    if (!out.empty())
      show("table     " + shown_text(out) + "\n");
  }
  return missing.empty() ? ExitCode::finding : ExitCode::undecided;
}
} // namespace

Verb gather_verb()
{
  return {
      "gather",
      "RUN...",
      "many runs as one table, a row each",
      "Reads run folders, or every run in a folder that holds them, and prints a row for "
      "each: the keys of the case that differ between them, the finding, force and "
      "stretch. --out writes the whole table as CSV: first the keys that differ, then the "
      "finding, then figures, in N, mm, MPa and deg, under the names of run.json "
      "(inputs/formats, installed as run-folder.md, describes every column). What is not "
      "known is -, and a run without "
      "a finding has no figures: a run under way, interrupted, failed or undecided is "
      "named. So is every folder that is no run, or a run of another form. Exit code 0: "
      "every folder is in the table with its figures; 3: the table is made, but what is "
      "named is missing from it; 2: there is no run at all, or nothing can be written.",
      {{"out", "FILE", "where the table goes as CSV; - prints it", {}},
       {"all", "", "every number of run.json, not only those that people compare", {}},
       {"overwrite",
        "",
        "replace a file that is in the table's place and is none of gather's; its own it "
        "replaces anyway",
        {}},
       units_option("of the printed form; the table is always in N, mm, MPa")},
      CaseKeys::none,
      most_named,
      carry_out};
}
} // namespace throughbend
