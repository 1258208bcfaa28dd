#pragma once
// Finished runs of a fixture, for its card: what each found, and whether it contradicts
// what closed forms say. Refuses runs that are not finished and runs of another fixture.

#include "postprocess/runs/run_record.h"
#include "solver/limits/case_limits.h"

#include <string>
#include <vector>

namespace throughbend
{
struct CardRun
{
  RunRecord   record;
  std::string folder;              ///< as it was named
  std::string found;               ///< every answer: `through, leg ironed; metal not known`
  bool        within      = false; ///< its coupon lies within the limits of the card
  bool        contradicts = false; ///< within, and did not go through as a sound pass goes

  /// Largest ram force [N]: where its own ram stopped it, that of a stronger one, as far as
  /// it was followed.
  double force_it_takes() const;
  bool   takes_more() const; ///< its own ram stopped it, and what it takes is not known
};

/// Throws InputError, with the cure, for a folder that is no run, a run without a finding,
/// and a run of another fixture, with what differs.
CardRun card_run(const std::string &folder, const Case &c, const CaseLimits &limits);
} // namespace throughbend
