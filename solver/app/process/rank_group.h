#pragma once
// The ranks that make a pass together. One alone asks nothing of MPI, which then need not
// have been started.

#include <mpi.h>

namespace throughbend
{
class RankGroup
{
public:
  explicit RankGroup(MPI_Comm communicator) : communicator_(communicator)
  {
    int started = 0;
    MPI_Initialized(&started);
    if (started == 0)
      return;
    MPI_Comm_size(communicator_, &n_);
    MPI_Comm_rank(communicator_, &rank_);
  }

  MPI_Comm communicator() const { return communicator_; }
  int      n() const { return n_; }
  int      rank() const { return rank_; }
  bool     is_first() const { return rank_ == 0; }
  bool     is_alone() const { return n_ == 1; }

  /// Whether it is so on any rank; asked by all of them together.
  bool any(bool here) const
  {
    if (is_alone())
      return here;
    int there = here ? 1 : 0;
    MPI_Allreduce(MPI_IN_PLACE, &there, 1, MPI_INT, MPI_MAX, communicator_);
    return there != 0;
  }

private:
  MPI_Comm communicator_;
  int      n_ = 1, rank_ = 0;
};
} // namespace throughbend
