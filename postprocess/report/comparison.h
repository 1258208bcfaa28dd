#pragma once
// Several runs side by side: their findings and key figures in one table, the inputs in
// which they differ in another, their forces and strains on one chart each.

#include "postprocess/runs/run_record.h"
#include "postprocess/words/reader_units.h"

namespace throughbend
{
/// A section of the page; empty for a single run.
std::string comparison_html(const std::vector<RunRecord> &runs, const ReaderUnits &units);
} // namespace throughbend
