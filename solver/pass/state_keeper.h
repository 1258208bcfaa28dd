#pragma once
// Where a pass puts its state while it runs, so that it can be taken up again. The pass
// knows no file: whoever keeps states implements this.

#include "solver/pass/pass_state.h"

namespace throughbend
{
class StateKeeper
{
public:
  virtual ~StateKeeper() = default;

  /// Asked before each step: whether it is time to keep one. The same on all ranks.
  virtual bool due() = 0;
  /// The state is complete on the first rank only.
  virtual void keep(const PassState &state) = 0;
};
} // namespace throughbend
