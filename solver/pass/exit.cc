#include "solver/pass/exit.h"

#include "meshes/fixture_profiles.h"
#include "solver/pass/force_scale.h"

#include <algorithm>

namespace throughbend
{
namespace
{
// Legs steeper than this stand between plunger and shoulders and move with the plunger
// [deg].
constexpr double upright = 60;

} // namespace

bool is_held(const Case &c, const PassSample &now)
{
  for (const ToolRole role : {ToolRole::left_shoulder, ToolRole::right_shoulder,
                              ToolRole::left_frame, ToolRole::right_frame})
    if (now.tool(role).normal > no_force(c))
      return true;
  return false;
}

bool has_an_end_up(const Case &c, const PassSample &now)
{
  return std::max(now.left.tip_y, now.right.tip_y) >=
         last_tangent_level(c.fixture.shoulders);
}

bool is_loaded(const Case &c, const PassSample &now)
{
  const auto presses = [&](ToolRole role) { return now.tool(role).normal > no_force(c); };
  const bool shoulders =
      presses(ToolRole::left_shoulder) && presses(ToolRole::right_shoulder);
  const bool frame = presses(ToolRole::left_frame) || presses(ToolRole::right_frame);
  return (shoulders || frame) && std::min(now.left.tip_y, now.right.tip_y) >=
                                     last_tangent_level(c.fixture.shoulders);
}

bool is_out(const Case &c, const PassSample &now, double outermost_x)
{
  if (is_held(c, now))
    return false;
  if (!has_an_end_up(c, now))
    return true;
  // At the very start the springs of contact have not met yet.
  return now.travel > c.coupon.thickness &&
         std::min(now.left.angle, now.right.angle) < unbent_angle &&
         outermost_x < c.fixture.shoulders.opening / 2;
}

double room_to_exit(const Case &c, const PassSample &now)
{
  if (std::min(now.left.angle, now.right.angle) < upright)
    return 1e300;
  const double room =
      std::max(now.left.tip_y, now.right.tip_y) - last_tangent_level(c.fixture.shoulders);
  return room > 0 ? room : 1e300;
}
} // namespace throughbend
