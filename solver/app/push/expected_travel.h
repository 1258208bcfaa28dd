#pragma once
// How far the plunger will go if all goes well, from lengths alone: for the time left on
// the terminal, and nothing else.

#include "inputs/case/case.h"

namespace throughbend
{
/// Travel at which the ends of a coupon, folded around the nose without stretching, pass
/// the shoulders; at most the ram's stroke [mm].
double expected_travel(const Case &c);
} // namespace throughbend
