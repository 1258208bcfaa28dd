#pragma once
// Has a run's checkpoints written: each time that the wall time between two has gone by,
// and when the pass asks for it. Every rank has one; the first one's clock counts, and it
// alone writes.

#include "solver/app/process/rank_group.h"
#include "solver/app/push/run_books.h"
#include "solver/pass/state_keeper.h"

#include <chrono>

namespace throughbend
{
class RunKeeper : public StateKeeper
{
public:
  /// `books` are null but on the first rank; `every` [s] of wall time, 0: only when asked.
  RunKeeper(RunBooks *books, double every, const RankGroup &ranks)
      : books_(books), every_(every), last_(now()), ranks_(ranks)
  {
  }

  bool due() override
  {
    if (every_ <= 0)
      return false;
    int due = now() - last_ >= every_ ? 1 : 0;
    if (!ranks_.is_alone())
      MPI_Bcast(&due, 1, MPI_INT, 0, ranks_.communicator());
    return due == 1;
  }
  void keep(const PassState &state) override
  {
    if (books_ != nullptr)
      books_->keep(state);
    last_ = now();
  }

private:
  static double now()
  {
    using namespace std::chrono;
    return duration<double>(steady_clock::now().time_since_epoch()).count();
  }

  RunBooks *books_;
  double    every_, last_;
  RankGroup ranks_;
};
} // namespace throughbend
