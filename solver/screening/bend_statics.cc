#include "solver/screening/bend_statics.h"

#include <cmath>

namespace throughbend
{
BendGeometry bend_geometry(const Case &c)
{
  const Shoulders &s    = c.fixture.shoulders;
  const Plunger   &p    = c.fixture.plunger;
  const double     flat = p.width / 2 - p.nose_radius;
  return {p.nose_radius, s.radius, c.coupon.thickness, s.opening / 2 + s.radius - flat};
}

StraightLeg straight_leg(const BendGeometry &g, const double angle)
{
  const double q = g.reach(), sine = std::sin(angle), cosine = std::cos(angle);
  StraightLeg  leg;
  leg.angle  = angle;
  leg.stroke = q - (q - g.half_span * sine) / cosine;
  leg.arm    = (g.half_span - q * sine) / cosine;
  leg.length = (g.nose_radius + g.thickness / 2) * angle + leg.arm;
  return leg;
}

double shoulder_force(const BendGeometry &g, const StraightLeg &leg, const double moment,
                      const double friction)
{
  return moment / (leg.arm + friction * g.thickness / 2);
}

double ram_force(const StraightLeg &leg, const double shoulder_force, const double friction)
{
  return 2 * shoulder_force * (std::cos(leg.angle) + friction * std::sin(leg.angle));
}

HingePeak hinge_peak(const BendGeometry &g, const double moment, const double friction)
{
  constexpr int    n    = 360;
  constexpr double last = 89.5 / 180 * 3.14159265358979323846; // [rad]
  HingePeak        peak;
  for (int i = 0; i <= n; ++i)
  {
    const StraightLeg leg = straight_leg(g, last * i / n);
    // No leg is left where nose and shoulder pinch it.
    if (leg.arm <= 0)
      break;
    const double force = ram_force(leg, shoulder_force(g, leg, moment, friction), friction);
    if (force > peak.force)
      peak = {force, leg};
  }
  return peak;
}
} // namespace throughbend
