#pragma once
// From a case to what the solver needs. The only way from one to the other.

#include "inputs/case/case.h"
#include "solver/setup/pass_setup.h"

namespace throughbend
{
/// The case must be valid (see inputs/keys/validation).
PassSetup set_up(const Case &c);

/// Its parts, for those who want one of them alone.
ContactStiffness contact_stiffness(const Case &c);
StepLengths      step_lengths(const Case &c);
EquilibriumGoal  equilibrium_goal(const Case &c);
Regularisation   regularisation(const Case &c);
} // namespace throughbend
