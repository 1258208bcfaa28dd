#include "meshes/coupon/leg_reach.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
constexpr double pi = 3.14159265358979323846;
} // namespace

bool leg_is_ironed(const Case &c)
{
  // A little below the room the leg's curl fills it already: at 0.98 of it the force
  // rippled on ordinary cells, at 0.95 not.
  constexpr double nearly = 0.97;
  return c.mesh.dimension == 2 && thickest(c) > nearly * room_beside_plunger(c);
}

double ironed_from(const Case &c)
{
  return (c.fixture.plunger.width / 2 + c.coupon.thickness / 2) * pi / 2;
}

double thickest(const Case &c)
{
  return c.coupon.thickness + std::abs(c.coupon.taper) / 2;
}

double room_beside_plunger(const Case &c)
{
  return (c.fixture.shoulders.opening - c.fixture.plunger.width) / 2;
}

double ironed_to(const Case &c)
{
  return thickest(c) > room_beside_plunger(c) ? std::numeric_limits<double>::infinity()
                                              : ironed_from(c) + 4 * c.coupon.thickness;
}

double straight_from(const Case &c)
{
  const double t = c.coupon.thickness, nose = c.fixture.plunger.width / 2;
  return (nose + t / 2) * pi / 2 + c.fixture.shoulders.opening / 2 +
         c.fixture.shoulders.radius + 4 * t;
}
} // namespace throughbend
