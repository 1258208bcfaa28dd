#pragma once
// What a launcher of ranks (mpirun, srun) has told this process in its environment, which
// is known before MPI is started; and whether MPI is needed at all.

namespace throughbend
{
/// Whether mpirun, or another launcher of ranks, has started this process.
bool is_started_by_launcher();

/// Whether there are other ranks. Where the launcher does not say how many, it is for MPI
/// to tell: true.
bool is_one_of_many();
} // namespace throughbend
