#pragma once
// Coupons that reach farther than a pass can follow: so thin and long that they would sag,
// or drawn down over so many bites of a shoulder that no computation gets to the end.

#include "inputs/keys/validation.h"

#include <vector>

namespace throughbend
{
/// How far the coupon reaches from the plunger's centre on its shorter side [mm].
double shorter_reach(const Coupon &coupon);

/// Empty when the coupon's length can be computed. Each says which length or opening would
/// do.
std::vector<Objection> find_reach_objections(const Case &c);
} // namespace throughbend
