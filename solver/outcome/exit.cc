#include "solver/outcome/exit.h"

#include <algorithm>

namespace throughbend
{
namespace
{
// Legs steeper than this stand between plunger and shoulders and move with the plunger
// [deg].
constexpr double upright = 60;

/// Of the ram's largest force [N]: with less it bears nothing but friction and drag.
double hundredth_of_largest(const std::vector<PassSample> &samples)
{
  double largest = 0;
  for (const PassSample &sample : samples)
    largest = std::max(largest, sample.ram_force);
  return 0.01 * largest;
}
} // namespace

bool is_held(const PassSetup &setup, const PassSample &now)
{
  return std::any_of(now.tools.begin(), now.tools.end(),
                     [&](const ToolContact &tool) {
                       return tool.place.duty != ToolDuty::push &&
                              tool.normal > setup.force.nothing;
                     });
}

bool has_an_end_up(const PassSetup &setup, const PassSample &now)
{
  return std::max(now.left.tip_y, now.right.tip_y) >= setup.last_tangent();
}

bool is_loaded(const PassSetup &setup, const PassSample &now)
{
  const auto presses = [&](ToolPlace place)
  { return now.tool(place).normal > setup.force.nothing; };
  const bool shoulders =
      presses(tool_at::left_shoulder) && presses(tool_at::right_shoulder);
  const bool frame = presses(tool_at::left_frame) || presses(tool_at::right_frame);
  return (shoulders || frame) &&
         std::min(now.left.tip_y, now.right.tip_y) >= setup.last_tangent();
}

bool is_out(const PassSetup &setup, const PassSample &now, double outermost_x)
{
  if (is_held(setup, now))
    return false;
  if (!has_an_end_up(setup, now))
    return true;
  // At the very start the springs of contact have not met yet.
  return now.travel > setup.coupon.thickness &&
         std::min(now.left.angle, now.right.angle) < unbent_angle &&
         outermost_x < setup.tool(tool_at::right_shoulder).gauge.flank;
}

bool goes_along(const PassSample &now)
{
  return std::min(now.left.angle, now.right.angle) >= upright;
}

bool still_bears(const std::vector<PassSample> &samples)
{
  return !samples.empty() && !(samples.back().ram_force < hundredth_of_largest(samples));
}

bool rides_loose(const std::vector<PassSample> &samples)
{
  const double least = hundredth_of_largest(samples);
  const auto bears  = [&](const PassSample &sample) { return !(sample.ram_force < least); };
  const auto jumped = [](const PassSample &sample)
  { return sample.kind == StepKind::relax; };
  return std::count_if(samples.rbegin(),
                       std::find_if(samples.rbegin(), samples.rend(), bears), jumped) >= 3;
}

double room_to_exit(const PassSetup &setup, const PassSample &now)
{
  if (!goes_along(now))
    return 1e300;
  const double room = std::max(now.left.tip_y, now.right.tip_y) - setup.last_tangent();
  return room > 0 ? room : 1e300;
}
} // namespace throughbend
