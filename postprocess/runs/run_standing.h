#pragma once
// Whether the figures of a run may stand beside those of others, and if not, why.

#include "postprocess/runs/run_record.h"

#include <string>

namespace throughbend
{
/// It is finished and has a finding that may rest on its record.
bool has_finding(const RunRecord &run);

/// Of a run without a finding, why; the end of a sentence about it. Empty where it has one.
std::string why_no_finding(const RunRecord &run);
} // namespace throughbend
