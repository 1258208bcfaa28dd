#include "solver/setup/set_up.h"
#include "meshes/coupon/coupon_grading.h"

#include "meshes/coupon/leg_reach.h"
#include "meshes/setup/fixture_profiles.h"
#include "solver/setup/pass_tools.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
ContactStiffness contact_stiffness(const Case &c)
{
  // Stiff enough to keep penetration below the tolerance at the pressures of bending, soft
  // enough for Newton; raised during the pass where that does not hold.
  const double     t = c.coupon.thickness;
  ContactStiffness stiffness;
  stiffness.normal = 2.2e-3 / c.solver.penetration_tolerance * c.material.young / t;
  // Sticks with a give of some hundredths of a millimetre, a fiftieth of a step's slip:
  // stiffer ones change the force by less than 0.3 % and cost a full model twice the steps.
  stiffness.tangential = 0.05 * stiffness.normal;
  stiffness.onset      = contact_band(c);
  stiffness.band       = contact_band(c);
  if (c.mesh.dimension == 2)
    stiffness.long_face = t; // those of legs that stay straight
  // Farther than a coupon comes in one step; under the nose, than it lifts off in a bend.
  stiffness.reach      = std::max(2 * step_lengths(c).longest(), 0.3 * t);
  stiffness.nose_reach = std::max(2 * t, c.fixture.plunger.nose_radius);
  return stiffness;
}

StepLengths step_lengths(const Case &c)
{
  const double nose = c.fixture.plunger.nose_radius;
  StepLengths  step;
  step.most = c.solver.step_limit;
  // A quick pass answers soon: some half a minute for what the ram cannot do anyway.
  if (c.mesh.level == MeshLevel::quick)
    step.work_beyond = 8e6;
  step.largest =
      c.solver.largest_step > 0 ? c.solver.largest_step : (nose + c.coupon.thickness) / 20;
  if (const double cell = ironed_cell(c); std::isfinite(cell))
  {
    constexpr double of_a_cell = 0.25;
    // The nose's centre passes the arcs' centres, and the narrowest place begins there.
    const double begins = touch_level(c) + nose + c.fixture.shoulders.radius;
    step.ironing        = of_a_cell * cell;
    step.ironing_begins = begins - cell;
    step.ironing_ends =
        begins + std::min(c.coupon.length / 2 + std::abs(c.coupon.offset), ironed_to(c)) -
        ironed_from(c);
  }
  const double straight = straight_from(c);
  if (c.solver.largest_step <= 0 &&
      c.coupon.length / 2 + std::abs(c.coupon.offset) > straight)
  {
    constexpr double of_thickness = 3;
    step.sliding                  = of_thickness * c.coupon.thickness;
    step.slides_from = touch_level(c) + nose + c.fixture.shoulders.radius + straight;
  }
  return step;
}

EquilibriumGoal equilibrium_goal(const Case &c)
{
  EquilibriumGoal goal;
  goal.tolerance    = c.solver.residual_tolerance;
  goal.least_force  = 1e-2 * force_scale(c).bending;
  goal.most_force   = 10 * force_scale(c).wrecking;
  goal.largest_move = c.coupon.thickness / 2;
  goal.penetration  = c.solver.penetration_tolerance * c.coupon.thickness;
  return goal;
}

Regularisation regularisation(const Case &c)
{
  const double   t      = c.coupon.thickness;
  const double   volume = c.coupon.length * c.coupon.width * t;
  Regularisation regularisation;
  regularisation.bending = force_scale(c).bending / volume;
  // While the hinge forms each leg turns about its shoulder: against a viscous force per
  // volume that takes (length / opening)^2 / 3 times what going down as a whole takes, by
  // virtual work. Legs of many openings would feel it; ten times is let pass.
  const double slender = c.coupon.length / c.fixture.shoulders.opening;
  const double turning = std::max(1., slender * slender / 3 / 10);
  regularisation.standing =
      regularisation.at_share(c.solver.regularisation, step_lengths(c).largest) / turning;
  regularisation.strong = c.material.young / (t * t);
  return regularisation;
}

PassSetup set_up(const Case &c)
{
  const Extent extent = model_extent(c);
  return {PlacedCoupon(c, extent),
          pass_tools(c, extent),
          zone_materials(c),
          ZoneMixing(c),
          contact_stiffness(c),
          {c.ram.capacity, c.ram.stroke},
          force_scale(c),
          step_lengths(c),
          equilibrium_goal(c),
          regularisation(c),
          std::max(coarsening(c), coarsening_by_hand(c))};
}
} // namespace throughbend
