#pragma once
// The running sums of work and energy that the next step adds to; kept by PassLedger.

#include "solver/outcome/pass_sample.h"

namespace throughbend
{
struct PassBooks
{
  double        travel = 0, ram_force = 0; ///< [mm], [N]
  double        largest_work = 0; ///< ram work, at least that of forming the hinge [N mm]
  EnergyBalance energy;
};
} // namespace throughbend
