#include "solver/pass/step_size.h"

#include <algorithm>

namespace throughbend
{
void StepSize::accepted(double taken, int iterations, int refusals)
{
  constexpr int easy = 7, hard = 10;
  // A step shortened by an event says nothing against the size that was meant.
  if (refusals > 0) // a larger one was tried just now
    size_ = std::max(least_, taken);
  else if (iterations <= easy)
    size_ = std::min(largest_, std::max(size_, 1.6 * taken));
  else if (iterations > hard)
    size_ = std::max(least_, 0.7 * taken);
}

void StepSize::refused(double tried)
{
  size_ = 0.4 * tried;
}
} // namespace throughbend
