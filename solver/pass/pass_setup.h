#pragma once
// Numbers that the solver needs and no user should have to choose: spring stiffness, steps,
// force scale, each derived from the case.

#include "inputs/case.h"
#include "solver/fem/equilibrium.h"
#include "solver/fem/newton.h"
#include "solver/mechanics/contact_law.h"
#include "solver/mechanics/j2_update.h"

#include <vector>

namespace throughbend
{
/// Base, HAZ, weld: index = zone number; a HAZ that is graded is here as it is where it
/// ends. A fourth is the HAZ at the fusion line.
std::vector<ZoneMaterial> zone_materials(const Case &c);

/// Share of each point between those materials, when they do not simply follow the zones:
/// strength goes in a smooth step from one value to the next across `weld.transition` at a
/// fusion line and at the end of the HAZ (a kink would be one more place where strain
/// gathers), and straight within the HAZ. Empty when it jumps, as it
/// does with a backstress: only flow curves are mixed.
template <int dim>
std::vector<StrengthMix> strength_mixes(const Case &c, const CouponModel<dim> &model);

ContactStiffness contact_stiffness(const Case &c);

double largest_step(const Case &c); ///< of travel [mm]

/// Largest step from a travel on while a leg is drawn between plunger and shoulder [mm]: a
/// quarter of the cells there. Elsewhere, and where no leg is ironed, infinity. Metal that
/// passes the short bite in few steps yields too early: steps of half a cell lose 5 % of
/// the force, these 2 to 3 %, and they take no more iterations in sum.
double         ironing_step(const Case &c, double travel);
NewtonSettings newton_settings(const Case &c, double whole_coupon_factor);
} // namespace throughbend
