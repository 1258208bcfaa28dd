#include "solver/pass/pass_tools.h"

#include "meshes/fixture_profiles.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
double touch_level(const Case &c)
{
  return coupon_level(c) + c.coupon.thickness + rise_under_plunger(c) + contact_band(c);
}

std::vector<RigidTool> pass_tools(const Case &c, Extent extent)
{
  const Fixture &fixture = c.fixture;
  const bool     rolling =
      fixture.shoulders.kind == ShoulderKind::rollers && fixture.shoulders.rollers_turn;
  const auto shoulder_friction = [&](Side side)
  {
    return rolling              ? 0.
           : side == Side::left ? c.friction.left_shoulder()
                                : c.friction.shoulders;
  };
  const double reach = 2 * c.coupon.length + c.ram.stroke; // never bare above

  std::vector<RigidTool> tools;
  tools.push_back({ToolRole::plunger,
                   plunger_profile(fixture.plunger, touch_level(c), reach),
                   c.friction.plunger});
  std::vector<Side> sides = {Side::right};
  if (extent == Extent::full)
    sides.push_back(Side::left);
  for (const Side side : sides)
  {
    const bool right = side == Side::right;
    tools.push_back({right ? ToolRole::right_shoulder : ToolRole::left_shoulder,
                     shoulder_profile(fixture, side), shoulder_friction(side)});
    if (fixture.frame.present())
      for (const RigidProfile &plate :
           frame_profiles(fixture.frame, c.coupon.thickness, side))
        tools.push_back({right ? ToolRole::right_frame : ToolRole::left_frame, plate,
                         c.friction.frame});
  }
  return tools;
}

double tool_distance(const Case &c, double travel)
{
  const Plunger   &plunger = c.fixture.plunger;
  const Shoulders &s       = c.fixture.shoulders;
  const Vec2       nose    = {plunger.width / 2 - plunger.nose_radius,
                              touch_level(c) - travel + plunger.nose_radius};
  const Vec2       arc     = {s.opening / 2 + s.radius, -s.radius};
  const double     flank   = (s.opening - plunger.width) / 2;
  if (nose.y <= arc.y)
    return flank;
  return std::max(flank, length(arc - nose) - plunger.nose_radius - s.radius);
}
} // namespace throughbend
