#include "solver/setup/force_scale.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
ForceScale force_scale(const Case &c)
{
  const double t        = c.coupon.thickness;
  const double nominal  = t / (c.fixture.plunger.width + t);
  const double strength = c.weld.present() ? std::max(1., c.weld.strength_ratio) : 1.;
  ForceScale   force;
  force.bending = c.material.flow.initial_stress() * t * t * c.coupon.width /
                  c.fixture.shoulders.opening;
  force.nothing    = 1e-3 * force.bending;
  force.plain_peak = 2 / std::sqrt(3.) * strength * c.material.flow.stress(nominal / 2) *
                     t * t * c.coupon.width / c.fixture.shoulders.opening;
  force.wrecking = 20 * force.plain_peak;
  return force;
}
} // namespace throughbend
