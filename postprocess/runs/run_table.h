#pragma once
// Many runs as one table, a row each: for a spreadsheet or a program as CSV, and in short
// for a terminal. Columns are described in solver/record/formats. What is not known is "-";
// figures of a run without a finding are not known.

#include "inputs/units/display_units.h"
#include "postprocess/runs/run_record.h"

#include <string>
#include <vector>

namespace throughbend
{
/// Which figures get a column, where any run has them.
enum class FigureChoice
{
  usual, ///< those that people compare
  all    ///< every number of run.json but cost, events and those within sentences
};

/// By its beginning the program knows a table of its own.
constexpr const char *table_mark = "throughbend run,";

/// Heads, then a line a run: folder; keys of the case that differ, numbers in N, mm, MPa,
/// s, deg; finding; figures under their path in run.json (those of key_figures without that
/// word); where it is from. Throws InputError where run.json holds something of another
/// kind than it should.
std::string table_csv(const std::vector<RunRecord> &runs, FigureChoice figures);

/// The same for reading, in columns: folder, keys that differ, finding, force, stretch.
std::string table_text(const std::vector<RunRecord> &runs, UnitSystem units);

/// Throws InputError where the run cannot be a row of such a table.
void check_row(const RunRecord &run);

/// Whether a text has the heads of such a table and no others: somebody may have added
/// columns.
bool is_run_table(const std::string &text);
} // namespace throughbend
