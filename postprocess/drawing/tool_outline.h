#pragma once
// A tool's outline as a draughtsman draws it: straight lines and true arcs, cut off where
// the view ends, and hatched. Convex outlines only, as meshes/tools/rigid_profile has them.

#include "meshes/tools/rigid_profile.h"

#include <vector>

namespace throughbend
{
/// One stretch of an outline that runs counter-clockwise [mm].
struct OutlinePiece
{
  PlaneVector from, to;
  double      radius = 0;  ///< of an arc that bulges outward, 0 = straight
  PlaneVector centre;      ///< of the arc
  bool        cut = false; ///< where the view cuts the tool off, not an edge of it
};
using Outline = std::vector<OutlinePiece>;

/// In pieces of at most a quarter turn.
Outline outline_of(const RigidProfile &profile);

/// What lies on the side where dot(normal, point) <= limit. Empty if nothing does.
Outline cut_off(const Outline &outline, PlaneVector normal, double limit);

/// Lines inside the outline, `spacing` [mm] apart, at this angle [rad] to the x-axis. Those
/// of one angle and spacing lie on common straight lines, whatever the outline.
std::vector<std::pair<PlaneVector, PlaneVector>> hatch_lines(const Outline &outline,
                                                             double angle, double spacing);
} // namespace throughbend
