#pragma once
// A push on several ranks. They share a large model. A small one, which they would make no
// sooner than one rank does, the first makes alone, and the others sleep.

#include "inputs/keys/case_reader.h"
#include "postprocess/app/push_order.h"
#include "postprocess/verbs/exit_code.h"

#include <mpi.h>

namespace throughbend
{
/// Unknowns of the case's model, those that are held among them.
double n_unknowns(const Case &c);

/// From so many unknowns on ranks share a model. Two ranks on two cores took longer than
/// one with 17 000 and 29 000 unknowns (with width) and 5 000 and 16 000 (in the plane),
/// 0.9 of its time with 60 000, and 0.6 to 0.75 with 200 000 to 310 000 (plain bodies,
/// tests/benchmarks/TABLE.md).
constexpr double shared_from = 100000;

/// The pass shared by all ranks of the communicator.
ExitCode push_shared(const PushOrder &order, const CaseReading &reading,
                     MPI_Comm communicator);

/// The pass by those ranks that shorten it. Every rank returns the same.
ExitCode push_on_ranks(const PushOrder &order, const CaseReading &reading,
                       MPI_Comm communicator);
} // namespace throughbend
