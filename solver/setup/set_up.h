#pragma once
// From a case to what the solver needs. The one door between the two.

#include "inputs/case.h"
#include "solver/setup/pass_setup.h"

namespace throughbend
{
/// The case must be valid (see inputs/validation).
PassSetup set_up(const Case &c);

/// Its parts, for those who want one of them alone.
ContactStiffness contact_stiffness(const Case &c);
StepLengths      step_lengths(const Case &c);
EquilibriumGoal  equilibrium_goal(const Case &c);
Drag             drag(const Case &c);
} // namespace throughbend
