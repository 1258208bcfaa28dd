#pragma once
// The tools of a case as rigid outlines with their friction, motion and gauge lengths.
// Their shapes are made in meshes/setup/fixture_profiles.

#include "inputs/case/case.h"
#include "meshes/coupon/coupon_shape.h"
#include "solver/mechanics/rigid_tool.h"

#include <vector>

namespace throughbend
{
/// All tools that the modelled half or whole coupon can meet. Freely turning rollers rub at
/// nothing: their bearings are taken as frictionless.
std::vector<RigidTool> pass_tools(const Case &c, Extent extent);
} // namespace throughbend
