#pragma once
// A rigid tool in place: its outline, which tool it is, how rough it is, and whether it
// goes down with the ram. Tools never turn or bend.

#include "meshes/rigid_profile.h"
#include "solver/mechanics/tool_role.h"

namespace throughbend
{
struct RigidTool
{
  ToolRole     role = ToolRole::plunger;
  RigidProfile profile;
  double       friction = 0; ///< Coulomb coefficient against the coupon [-]

  /// Where the outline has moved to at `travel` [mm]: only the plunger moves, downwards.
  Vec2 shift(double travel) const
  {
    return role == ToolRole::plunger ? Vec2{0, -travel} : Vec2{0, 0};
  }
  Proximity proximity(Vec2 point, double travel) const
  {
    return profile.proximity(point - shift(travel));
  }
};
} // namespace throughbend
