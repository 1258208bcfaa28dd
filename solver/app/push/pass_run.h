#pragma once
// Carries out one push from a case that has been found good: folder, records, simulation,
// verdict. Says how it ended; bad input has been dealt with before, except the folder's.

#include "inputs/keys/case_reader.h"
#include "postprocess/app/push_order.h"
#include "postprocess/verbs/exit_code.h"

#include <mpi.h>

namespace throughbend
{
/// Collective. Prints on the first rank. On an error with several ranks it ends them all.
template <int dim>
ExitCode run_pass(const PushOrder &order, const CaseReading &reading,
                  MPI_Comm communicator);
} // namespace throughbend
