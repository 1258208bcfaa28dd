#include "solver/setup/pass_tools.h"

#include "meshes/setup/fixture_profiles.h"

namespace throughbend
{
namespace
{
RigidTool plunger(const Case &c)
{
  const double reach = 2 * c.coupon.length + c.ram.stroke; // never bare above
  RigidTool tool(tool_at::plunger, plunger_shape(c.fixture.plunger, touch_level(c), reach),
                 c.friction.plunger);
  // As far as the legs of the finished U stand up beside it.
  tool.drawn_up = 0.55 * c.coupon.length;
  return tool;
}

RigidTool shoulder(const Case &c, const Side side)
{
  const bool right = side == Side::right;
  return {right ? tool_at::right_shoulder : tool_at::left_shoulder,
          shoulder_shape(c.fixture, side),
          c.fixture.shoulders.roll() ? 0.
          : right                    ? c.friction.shoulders
                                     : c.friction.left_shoulder()};
}

RigidTool frame(const Case &c, const Side side)
{
  return {side == Side::right ? tool_at::right_frame : tool_at::left_frame,
          frame_shape(c.fixture.frame, c.coupon.thickness, side), c.friction.frame};
}
} // namespace

std::vector<RigidTool> pass_tools(const Case &c, const Extent extent)
{
  std::vector<RigidTool> tools = {plunger(c)};
  std::vector<Side>      sides = {Side::right};
  if (extent == Extent::full)
    sides.push_back(Side::left);
  for (const Side side : sides)
  {
    tools.push_back(shoulder(c, side));
    if (c.fixture.frame.present())
      tools.push_back(frame(c, side));
  }
  return tools;
}
} // namespace throughbend
