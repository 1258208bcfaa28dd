#pragma once
// The probability of an event from passes that were sampled, with an interval that errs on
// the wide side.

#include <cstddef>
#include <vector>

namespace throughbend
{
enum class Happened
{
  no,
  yes,
  not_known ///< undecided passes: neither
};

struct Chance
{
  double      share = 0;         ///< of all passes, where it is known to have happened [-]
  double      most  = 0;         ///< of all passes, where it happened or may have [-]
  double      low = 0, high = 1; ///< two-sided interval [-]
  double      level  = 0.95;     ///< of the interval [-]
  std::size_t events = 0, known = 0, not_known = 0;
};

/// Pass i belongs to set i % sets (see sample_sets).
///
/// The interval is the wider, at each end, of two:
/// - Clopper & Pearson (1934), Biometrika 26, 404: exact for independent passes;
/// - Student's t on the shares of the sets, which are independent of each other although
///   their points are not.
/// Sobol points usually make a share more certain than independent ones do, so the first is
/// safe; where they happen to make it less certain, the second sees it. Passes that are not
/// known count as `no` for the lower end and as `yes` for the upper one. With one set only
/// the first is taken.
Chance chance(const std::vector<Happened> &passes, std::size_t sets, double level = 0.95);
} // namespace throughbend
