#include "solver/setup/pass_setup.h"

#include <algorithm>
#include <stdexcept>

namespace throughbend
{
namespace
{
constexpr double pi = 3.14159265358979323846;

const RigidTool *find(const std::vector<RigidTool> &tools, const ToolPlace place)
{
  for (const ToolPlace wanted : {place, opposite(place)})
    for (const RigidTool &tool : tools)
      if (tool.place == wanted)
        return &tool;
  return nullptr;
}
} // namespace

double StepLengths::longest() const
{
  return std::max(largest, sliding);
}

double StepLengths::at(const double travel) const
{
  if (travel >= ironing_begins && travel < ironing_ends)
    return std::min(largest, ironing);
  constexpr double growth = 1. / 8; // of the way since
  return travel > slides_from
             ? std::clamp(largest + growth * (travel - slides_from), largest, longest())
             : largest;
}

bool PassSetup::has_tool(const ToolPlace place) const
{
  return find(tools, place) != nullptr;
}

const RigidTool &PassSetup::tool(const ToolPlace place) const
{
  if (const RigidTool *const found = find(tools, place))
    return *found;
  throw std::logic_error("the fixture has no " + tool_name(place));
}

double PassSetup::least_room() const
{
  return tool(tool_at::right_shoulder).gauge.flank - tool(tool_at::plunger).gauge.flank;
}

double PassSetup::room(const double travel) const
{
  const ToolGauge &nose    = tool(tool_at::plunger).gauge,
                  &arc     = tool(tool_at::right_shoulder).gauge;
  const PlaneVector centre = nose.round_centre + tool(tool_at::plunger).shift(travel);
  if (centre.y <= arc.round_centre.y)
    return least_room();
  return std::max(least_room(), length(arc.round_centre - centre) - nose.round - arc.round);
}

double PassSetup::passing_thickness(const ToolSide leg, const double travel) const
{
  const ToolGauge &nose = tool(tool_at::plunger).gauge,
                  &arc  = tool(tool_at::right_shoulder).gauge;
  const double down =
      arc.round_centre.y - (nose.round_centre + tool(tool_at::plunger).shift(travel)).y;
  // Half the bend lies around the nose; from its end on the leg is drawn past the arc.
  const double along = (nose.flank + coupon.thickness / 2) * pi / 2 + std::max(0., down);
  return coupon.plate_thickness(leg == ToolSide::left ? -along : along);
}

double PassSetup::thickest_of_leg(const ToolSide leg, const double travel) const
{
  const double end = leg == ToolSide::left ? -coupon.length : coupon.length;
  return std::max(passing_thickness(leg, travel), coupon.plate_thickness(end));
}
} // namespace throughbend
