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

// Of the largest force so far. With one end out the other is only rubbed along one wall:
// what is left of the force is the last of the spring-back, worth no more than a few per
// cent.
constexpr double force_gone = 0.02;
constexpr double no_force   = 0.001;
} // namespace

bool is_out(const Case &c, const std::vector<PassSample> &samples, double outermost_x)
{
  const PassSample &now  = samples.back();
  const double      last = last_tangent_level(c.fixture.shoulders);
  const double      high = std::max(now.left.tip_y, now.right.tip_y);
  const double      low  = std::min(now.left.tip_y, now.right.tip_y);
  if (high < last)
    return true;

  double held = 0;
  for (const ToolRole role : {ToolRole::left_shoulder, ToolRole::right_shoulder,
                              ToolRole::left_frame, ToolRole::right_frame})
    held += now.tool(role).normal;
  if (held == 0 && now.travel > c.coupon.thickness &&
      outermost_x < c.fixture.shoulders.opening / 2)
    return true;

  double largest = bending_force(c);
  for (const PassSample &sample : samples)
    largest = std::max(largest, sample.ram_force);
  if (low < last && now.ram_force < force_gone * largest)
    return true;
  return std::min(now.left.angle, now.right.angle) > upright &&
         high < arc_end_level(c.fixture.shoulders) && now.ram_force < no_force * largest;
}

double room_to_exit(const Case &c, const PassSample &now)
{
  if (std::min(now.left.angle, now.right.angle) < upright)
    return 1e300;
  const double high = std::max(now.left.tip_y, now.right.tip_y);
  return std::max(0., high - last_tangent_level(c.fixture.shoulders));
}
} // namespace throughbend
