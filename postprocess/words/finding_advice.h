#pragma once
// What would help a coupon that did not go through, or whose metal is not shown to bear it,
// with the case's own dimensions: for the person at the bench. Uses what the run has
// computed and geometry; promises nothing that was not computed.

#include "postprocess/runs/run_record.h"
#include "postprocess/words/reader_units.h"

namespace throughbend
{
/// A sentence or two; empty where nothing need be done, or where the case is not known.
std::string finding_advice(const RunRecord &run, const ReaderUnits &units);
} // namespace throughbend
