#pragma once
// What would help a coupon that did not go through, with the case's own dimensions: for
// the person who stands at the bench. Geometry and common sense only; it computes no pass.

#include "inputs/run_record.h"
#include "postprocess/reader_units.h"

namespace throughbend
{
/// A sentence or two; empty where nothing need be done, or where the case is not known.
std::string finding_advice(const RunRecord &run, const ReaderUnits &units);
} // namespace throughbend
