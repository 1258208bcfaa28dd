#include "postprocess/app/gather_verb.h"

#include "inputs/text/csv_table.h"
#include "inputs/text/input_error.h"
#include "inputs/text/own_file.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/whole_file.h"
#include "postprocess/app/help.h"
#include "postprocess/runs/gathered_runs.h"
#include "postprocess/runs/run_standing.h"
#include "postprocess/runs/run_table.h"

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
void check_out(const std::string &out, const VerbArguments &given)
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
                     ": the file exists already and was not made by gather. Choose "
                     "another name, or add --overwrite to replace it.");
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
    if (!run.known_case)
      lines.push_back("no case: " + run.folder.string() +
                      ": this version cannot read its case.");
  }
  return lines;
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(gather_verb(), words);
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
  if (may_print())
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
      "a table with one row per run",
      "Reads run folders, or all runs in a folder, and prints one row for each: the "
      "keys of the case that differ, the finding, force and stretch. --out writes the "
      "whole table as CSV: first the keys that differ, then the finding, then figures, "
      "in N, mm, MPa and deg, under the names of run.json (solver/record/formats, "
      "installed as "
      "run-folder.md, describes every column). A dash means not known. A run without a "
      "finding (under way, interrupted, failed or undecided) has no figures and is "
      "named, and so is a folder that is not a run or has another format. Exit code 0: "
      "every folder is in the table with its figures. 3: the table is made without the "
      "folders that are named. 2: there is no run, or nothing can be written.",
      {{"out", "FILE", "file of the table as CSV; - prints it", {}},
       {"all", "", "all numbers of run.json, not only the usual ones", {}},
       {"overwrite",
        "",
        "replace a file of that name that was not made by gather. Its own tables are "
        "always replaced",
        {}},
       units_option("of the printed figures; keys of a case are printed in mm, N, MPa, and "
                    "the table is always in them")},
      CaseKeys::none,
      most_named,
      carry_out};
}
} // namespace throughbend
