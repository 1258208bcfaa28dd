#pragma once
// Carries out one push from a case that has been found good: folder, records, simulation,
// verdict. Says how it ended; bad input has been dealt with before, except the folder's.

#include "inputs/case_reader.h"
#include "inputs/exit_code.h"
#include "solver/app/push_order.h"

#include <mpi.h>

namespace throughbend
{
/// Collective. Prints on the first rank. On an error with several ranks it ends them all.
template <int dim>
ExitCode run_pass(const PushOrder &order, const CaseReading &reading,
                  MPI_Comm communicator);
} // namespace throughbend
