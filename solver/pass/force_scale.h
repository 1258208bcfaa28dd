#pragma once
// One number to tell a force from no force to speak of. Mesh-free.

#include "inputs/case.h"

namespace throughbend
{
/// Plastic three-point bending force of the whole coupon [N]: 4 M / opening with the fully
/// plastic moment M = Y w t^2 / 4.
inline double bending_force(const Case &c)
{
  const double t = c.coupon.thickness;
  return c.material.flow.initial_stress() * t * t * c.coupon.width /
         c.fixture.shoulders.opening;
}
} // namespace throughbend
