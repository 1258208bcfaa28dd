#pragma once
// The lines of a printed finding about a weld and about what is measured on the bent
// coupon at the end of the push, still loaded: where strain gathers, in or out of the bend,
// wire, walk, ductility used. Words only; every number comes from the summary. No lines for
// what was neither welded nor asked for.

#include "inputs/units/display_units.h"
#include "solver/record/run_summary.h"

#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
/// A name and what is said of it.
using FindingLine = std::pair<std::string, std::string>;

std::vector<FindingLine> weld_lines(const RunSummary &summary, UnitSystem units);
} // namespace throughbend
