#pragma once
// A push on several ranks. They share a large model. A small one, which they would make no
// sooner than one rank does, the first makes alone, and the others sleep.

#include "inputs/case_reader.h"
#include "inputs/exit_code.h"
#include "solver/app/push_order.h"

#include <mpi.h>

namespace throughbend
{
/// Unknowns of the case's model, those that are held among them.
double n_unknowns(const Case &c);

/// From how many on ranks share a model of so many dimensions.
double ranks_pay_from(int dimension);

/// The pass shared by all ranks of the communicator.
ExitCode push_shared(const PushOrder &order, const CaseReading &reading,
                     MPI_Comm communicator);

/// The pass by those ranks that shorten it. Every rank returns the same.
ExitCode push_on_ranks(const PushOrder &order, const CaseReading &reading,
                       MPI_Comm communicator);
} // namespace throughbend
