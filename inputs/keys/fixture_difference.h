#pragma once
// Whether two cases are of one fixture, and if not, in what they differ: every dimension of
// plunger, shoulders and frame. Coupon, metal, grease and ram may differ.

#include "inputs/case/case.h"

#include <string>
#include <vector>

namespace throughbend
{
/// A line for each key that differs, `plunger.width 45 mm there, 40 mm here`; none for one
/// fixture.
std::vector<std::string> fixture_difference(const Case &there, const Case &here);
} // namespace throughbend
