#include "solver/mechanics/rigid_tool.h"

#include <stdexcept>
#include <utility>

namespace throughbend
{
RigidTool::RigidTool(const ToolPlace where, ToolShape shape, const double coefficient)
    : place(where), outlines(std::move(shape.outlines)), friction(coefficient),
      motion(where.duty == ToolDuty::push ? PlaneVector{0, -1} : PlaneVector{0, 0}),
      gauge(shape.gauge)
{
}

RigidTool::RigidTool(const ToolPlace where, RigidProfile piece, const double coefficient)
    : RigidTool(where, ToolShape{{std::move(piece)}, {}}, coefficient)
{
}

Proximity RigidTool::proximity(const PlaneVector point, const double travel) const
{
  if (outlines.empty())
    throw std::logic_error("a tool without an outline is near to nothing");
  const PlaneVector local   = point - shift(travel);
  Proximity         nearest = outlines.front().proximity(local);
  for (std::size_t i = 1; i < outlines.size(); ++i)
    if (const Proximity other = outlines[i].proximity(local); other.gap < nearest.gap)
      nearest = other;
  return nearest;
}
} // namespace throughbend
