#pragma once
// What a tool looks like from the side, and the few of its lengths that findings ask for,
// read off once, so that nothing else has to know the shape.

#include "meshes/tools/rigid_profile.h"

#include <limits>
#include <vector>

namespace throughbend
{
/// Of a tool on the left the mirrored one's [mm].
struct ToolGauge
{
  /// Radius of the round that the coupon is bent over or drawn over; 0: it has none.
  double      round = 0;
  PlaneVector round_centre; ///< the right-hand one's, at travel 0
  /// Distance of the upright faces behind the rounds from the plunger's centre line.
  double flank = 0;
  /// Level below which it holds nothing: its last point with an upright tangent.
  double holds_down_to = -std::numeric_limits<double>::infinity();
};

struct ToolShape
{
  std::vector<RigidProfile> outlines; ///< convex pieces; together the tool
  ToolGauge                 gauge;
};
} // namespace throughbend
