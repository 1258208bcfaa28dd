#pragma once
// Has a run's checkpoints written: each time that the wall time between two has gone by,
// and when the pass asks for it.

#include "solver/app/run_books.h"
#include "solver/pass/state_keeper.h"

#include <chrono>

namespace throughbend
{
class RunKeeper : public StateKeeper
{
public:
  /// `every` [s] of wall time; 0: only when asked.
  RunKeeper(RunBooks &books, double every) : books_(books), every_(every), last_(now()) {}

  bool due() override { return every_ > 0 && now() - last_ >= every_; }
  void keep(const PassState &state) override
  {
    books_.keep(state);
    last_ = now();
  }

private:
  static double now()
  {
    using namespace std::chrono;
    return duration<double>(steady_clock::now().time_since_epoch()).count();
  }

  RunBooks &books_;
  double    every_, last_;
};
} // namespace throughbend
