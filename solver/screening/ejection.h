#pragma once
// How fast a coupon could leave if all the elastic energy it lets go became motion: a bound
// for guarding, not a forecast.

#include "inputs/case/case.h"

namespace throughbend
{
/// sqrt(2 E / m) [m/s]; energy [N mm], mass of the coupon from its size and density.
/// Conservation of energy: friction and the legs' own swing only lower it.
double ejection_bound(const Coupon &coupon, double density, double energy);
} // namespace throughbend
