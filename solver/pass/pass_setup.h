#pragma once
// Numbers that the solver needs and no user should have to choose: spring stiffness, steps,
// force scale, each derived from the case.

#include "inputs/case.h"
#include "solver/fem/newton.h"
#include "solver/mechanics/contact_law.h"
#include "solver/mechanics/j2_update.h"

#include <vector>

namespace throughbend
{
/// Base, HAZ, weld: index = zone number.
std::vector<ZoneMaterial> zone_materials(const Case &c);

ContactStiffness contact_stiffness(const Case &c);

/// Plastic three-point bending force of the modelled part [N]: 4 M / span with the fully
/// plastic moment Y t^2 / 4 (per width). A measure for "no force to speak of".
double bending_force_scale(const Case &c, double whole_coupon_factor);

double         largest_step(const Case &c); ///< of travel [mm]
NewtonSettings newton_settings(const Case &c, double whole_coupon_factor);
} // namespace throughbend
