#pragma once
// The tools of a case as rigid outlines with their friction, and where they stand to each
// other along the travel.

#include "meshes/coupon_grading.h"
#include "solver/mechanics/rigid_tool.h"

#include <vector>

namespace throughbend
{
/// All tools that the modelled half or whole coupon can meet. Freely turning rollers rub at
/// nothing: their bearings are taken as frictionless.
std::vector<RigidTool> pass_tools(const Case &c, Extent extent);

/// Height of the plunger's nose at travel 0 [mm]: on the upper face of the resting coupon,
/// clear of it by the contact band.
double touch_level(const Case &c);

/// Room between plunger and shoulder at a travel [mm]: what a leg's thickness has to fit
/// in.
double tool_distance(const Case &c, double travel);
} // namespace throughbend
