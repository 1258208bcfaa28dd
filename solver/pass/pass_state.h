#pragma once
// All that makes the next step of a pass, and its record so far: who has it and the case
// can go on with the pass elsewhere and comes to the same record, to the last digit on as
// many ranks. Plain values, of the whole model in an order that does not depend on the
// ranks. The files that hold it are solver/fields/checkpoint's.

#include "solver/fem/pass_equations.h"
#include "solver/outcome/at_capacity.h"
#include "solver/outcome/findings.h"
#include "solver/outcome/pass_sample.h"
#include "solver/pass/pass_books.h"
#include "solver/pass/pass_counts.h"
#include "solver/pass/step_size.h"
#include "solver/pass/travel_trail.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// What the next step starts from.
struct Standing
{
  Vector      u;                     ///< displacement [mm]
  double      travel = 0, nudge = 0; ///< of the plunger; of the last jump [mm]
  StepSize    step{0, 0, 0};
  TravelTrail trail;
  PassMemory  memory; ///< history of every point, contact and its springs
  PassBooks   books;
};

struct PassState
{
  Standing                  now;
  std::optional<Standing>   at_capacity; ///< while the pass is beyond the ram's capacity
  std::optional<StopReason> stop;        ///< why the push ended, if it has
  std::optional<StopReason> beyond_stop; ///< the same beyond the capacity
  AtCapacity                order = AtCapacity::go_on;
  PassCounts                counts;
  WorkCount                 work;
  SolverMemory              solver;    ///< of the linear solver
  std::vector<PassSample>   samples;   ///< record so far
  std::vector<PassSample>   beyond;    ///< beyond the ram's capacity
  std::vector<std::string>  observers; ///< what each observer keeps in mind, as bytes
};

/// The name of the first part in which two states differ; empty: they are the same. Wall
/// times are not compared.
std::string first_difference(const PassState &a, const PassState &b);
} // namespace throughbend
