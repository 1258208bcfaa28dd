#pragma once
// The few figures by which an index tells runs apart: ram force, stretch of the convex face
// and where it is, springback, walk. All figures are in postprocess/report/report_figures.

#include "postprocess/runs/run_record.h"
#include "postprocess/words/reader_units.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
struct IndexFigure
{
  std::string name;
  std::string brief; ///< for a row of a table, in the first family of units
  std::string full;  ///< in both, with what it compares with
};

/// The same names in the same order for every run; a run that does not have one has "-" for
/// it and an empty full text.
std::vector<IndexFigure> index_figures(const RunRecord &run, const ReaderUnits &units);

/// How far the flaw that gapes most is open, against the stated limit; none without flaws.
/// Too few runs have one for a column of its own.
std::optional<IndexFigure> flaw_opening(const RunRecord &run, const ReaderUnits &units);
} // namespace throughbend
