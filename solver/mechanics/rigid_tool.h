#pragma once
// A rigid tool in place: its outlines, which tool it is, how rough it is, how it moves, and
// the few of its lengths that findings ask for. Tools never turn or bend.

#include "meshes/tools/tool_shape.h"
#include "solver/mechanics/tool_list.h"

#include <limits>
#include <vector>

namespace throughbend
{
struct RigidTool
{
  /// Of several pieces or of one; it moves as its duty says, with the ram or not at all.
  RigidTool(ToolPlace place, ToolShape shape, double friction);
  RigidTool(ToolPlace place, RigidProfile outline, double friction);

  ToolPlace                 place;
  std::vector<RigidProfile> outlines; ///< convex pieces; together the tool
  double                    friction; ///< Coulomb coefficient against the coupon [-]
  PlaneVector               motion;   ///< per travel of the ram [-]
  ToolGauge                 gauge{};
  /// Cut off for drawing so far above its lowest point [mm].
  double drawn_up = std::numeric_limits<double>::infinity();

  /// Where the outlines have moved to at `travel` [mm].
  PlaneVector shift(double travel) const { return travel * motion; }
  /// Against the nearest of the outlines. Throws std::logic_error when there is none.
  Proximity proximity(PlaneVector point, double travel) const;
};
} // namespace throughbend
