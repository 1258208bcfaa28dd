#pragma once
// One sentence for a finding, outcome first: what terminal, run.json and report begin with.

#include "solver/outcome/finding.h"

namespace throughbend
{
/// Names what a sound pass doesn't have ("THROUGH, leg ironed"), and in brackets why its
/// accuracy is low, or that the ripple of the force could turn the finding.
Evidence verdict(const Finding &finding);
} // namespace throughbend
