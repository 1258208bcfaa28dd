#include "solver/app/push/expected_travel.h"

#include "meshes/setup/fixture_profiles.h"

#include <algorithm>

namespace throughbend
{
double expected_travel(const Case &c)
{
  constexpr double quarter_turn = 1.57079632679489662;
  const Plunger   &plunger      = c.fixture.plunger;
  const double     flat_nose    = plunger.width / 2 - plunger.nose_radius;
  const double     around = quarter_turn * (plunger.nose_radius + c.coupon.thickness / 2);
  const double     longer = c.coupon.length / 2 + std::abs(c.coupon.offset);
  const double     leg    = std::max(0., longer - flat_nose - around);
  // The nose is at touch_level - travel, its flanks begin a nose radius higher.
  const double travel =
      touch_level(c) + plunger.nose_radius + leg - last_tangent_level(c.fixture.shoulders);
  return std::min(travel, c.ram.stroke);
}
} // namespace throughbend
