#pragma once
// How much work a pass was.

namespace throughbend
{
struct PassCounts
{
  int    steps = 0, refusals = 0, jumps = 0, iterations = 0;
  double seconds = 0; ///< wall time of run() [s], of all parts of a pass that was resumed
};
} // namespace throughbend
