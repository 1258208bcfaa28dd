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

double         largest_step(const Case &c); ///< of travel [mm]
NewtonSettings newton_settings(const Case &c, double whole_coupon_factor);
} // namespace throughbend
