#pragma once
// Limits of a size on a drawing: deviations behind its dimension, and a line of words. Both
// are rounded inward, so that no limit is wider on paper than it is known to be. Where
// limits come from is the caller's.

#include "inputs/case/option.h"

#include <string>

namespace throughbend
{
enum class LimitKind
{
  tolerance, ///< all sizes may vary within theirs together: written on the dimension line
  by_rule    ///< what a rule also takes; may hang together with other sizes: words only
};

struct SizeLimits
{
  std::string letter; ///< of the dimension, as in the table of a drawing
  LimitKind   kind = LimitKind::tolerance;
  Range       range;       ///< [mm]; an infinite end is no limit
  std::string origin = {}; ///< `by simulated passes`
};

/// `+0.8/-0.3` from the size [mm] as its text shows it, in mm or inch; empty for limits of
/// a rule, for one-sided ones, and where nothing is left between the rounded ends.
std::string deviation_text(double size, const SizeLimits &limits, UnitSystem units);

/// `Limits of C: 62.9 mm to 64 mm (2.477 in to 2.519 in), by simulated passes.`
std::string limits_words(const SizeLimits &limits, UnitSystem first);
} // namespace throughbend
