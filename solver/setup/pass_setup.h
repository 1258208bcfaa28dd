#pragma once
// All that the solver needs of a case, worked out once: the coupon in its place, the tools,
// the materials, and the numbers that no user should have to choose. Below this, nothing
// knows a case. Made by set_up().

#include "meshes/setup/placed_coupon.h"
#include "solver/mechanics/contact_law.h"
#include "solver/mechanics/rigid_tool.h"
#include "solver/setup/force_scale.h"
#include "solver/setup/zone_materials.h"

#include <limits>
#include <vector>

namespace throughbend
{
/// What the ram can give.
struct RamLimits
{
  double capacity = 0; ///< [N]
  double stroke   = 0; ///< from first touch [mm]
};

/// How far the plunger may go in one step.
struct StepLengths
{
  double largest = 0; ///< of travel [mm]

  /// While a leg is drawn between plunger and shoulder [mm]: a quarter of the cells there.
  /// Metal that passes the short bite in few steps yields too early: steps of half a cell
  /// lose 5 % of the force, these 2 to 3 %, and they take no more iterations in sum.
  /// Infinity where no leg is ironed.
  double ironing        = std::numeric_limits<double>::infinity();
  double ironing_begins = 0, ironing_ends = 0; ///< travel [mm]
  /// Once long legs only slide past the shoulders the steps grow up to this [mm].
  double sliding     = 0;
  double slides_from = std::numeric_limits<double>::infinity(); ///< travel [mm]
  int    most        = 0; ///< accepted and refused steps before the pass is given up
  /// Iterations times unknowns spent beyond the ram's capacity, at most.
  double work_beyond = std::numeric_limits<double>::infinity();

  double longest() const;         ///< of all [mm]
  double at(double travel) const; ///< largest step from a travel on [mm]
};

/// When an equilibrium is found, and how far an iteration may move a node.
struct EquilibriumGoal
{
  double tolerance    = 0; ///< unbalanced force / contact force [-]
  double least_force  = 0; ///< a contact force below it is taken as so large, whole [N]
  double most_force   = 0; ///< and one above it as so small, whole [N]
  double largest_move = 0; ///< of a node in one iteration [mm]
  double penetration  = 0; ///< that is let stand [mm]
};

/// Viscous force that holds a coupon nothing holds, per volume and displacement [N/mm^4].
struct Regularisation
{
  double standing = 0; ///< in every step, of one of the largest length
  double strong   = 0; ///< the measure of what a coupon is let go against, E / t^2
  double bending  = 0; ///< the force that bends the coupon over its volume [N/mm^3]

  /// That takes a share [-] of that force where the whole coupon goes so far [mm].
  double at_share(double share, double way) const { return share * bending / way; }
};

struct PassSetup
{
  PlacedCoupon              coupon;
  std::vector<RigidTool>    tools; ///< that the modelled half or whole can meet
  std::vector<ZoneMaterial> materials;
  ZoneMixing                mixing;
  ContactStiffness          contact;
  RamLimits                 ram;
  ForceScale                force;
  StepLengths               step;
  EquilibriumGoal           goal;
  Regularisation            regularisation;
  /// Of the fine cells of a quick mesh, or by hand: see coarsening(), coarsening_by_hand()
  /// [-].
  double mesh_coarsening = 1;

  /// In a half model a tool on the left is the one on the right. Throws std::logic_error
  /// when there is none.
  const RigidTool &tool(ToolPlace place) const;
  bool             has_tool(ToolPlace place) const;

  /// Room between plunger and shoulder at a travel [mm]: what a leg's thickness has to fit
  /// in; and the narrowest, when the plunger stands between the shoulders.
  double room(double travel) const;
  double least_room() const;

  /// Of the plate of a leg where it passes the narrowest place at a travel, and where it is
  /// thickest from there to its end [mm]. A taper makes one leg thicker than the other.
  double passing_thickness(ToolSide leg, double travel) const;
  double thickest_of_leg(ToolSide leg, double travel = 0) const;

  /// Level that an end has to pass to be out [mm].
  double last_tangent() const { return tool(tool_at::right_shoulder).gauge.holds_down_to; }
};
} // namespace throughbend
