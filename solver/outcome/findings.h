#pragma once
// Turns the record of a pass and the reason it stopped into a finding with evidence. Knows
// no mesh: everything is decided on samples, so it can be tested with made-up ones.

#include "solver/outcome/finding.h"
#include "solver/outcome/pass_sample.h"
#include "solver/setup/pass_setup.h"

#include <optional>
#include <vector>

namespace throughbend
{
enum class StopReason
{
  out,         ///< both ends are past the shoulders, or nothing holds the coupon any more
  force_limit, ///< the ram is at its capacity
  stroke_end,  ///< the ram is at the end of its stroke
  stuck,       ///< no smaller step and no relaxation found an equilibrium
  flaw_shut,   ///< the lips of a flaw ran deeper into each other than they may
  step_limit,  ///< more steps than allowed
  interrupted  ///< its user stopped it
};

/// Overlap of a flaw's lips over the thickness beyond which the pass is no longer physical
/// [-]: twice what tools may penetrate unless told otherwise.
constexpr double shut_overlap = 1e-3;

/// The flaw, by its place in PassSample::flaws, whose lips have run into each other deepest
/// and further than that; nothing when none has.
std::optional<std::size_t> shut_flaw(const PassSetup &setup, const PassSample &sample);

/// What the samples beyond the ram's capacity say, in their order; `reason` ended them.
BeyondCapacity beyond_capacity(const PassSetup               &setup,
                               const std::vector<PassSample> &beyond, StopReason reason);

/// A coupon is jammed when it does not go on at any force up to wrecking_force(). What only
/// stops the ram is over-capacity, what only stops the computation is undecided. `beyond`:
/// the samples that followed those at which the ram's force ran out, and why they ended.
struct BeyondRecord
{
  std::vector<PassSample> samples;
  StopReason              reason = StopReason::interrupted;
};
Finding decide(const PassSetup &setup, const std::vector<PassSample> &samples,
               StopReason reason, const std::optional<BeyondRecord> &beyond = std::nullopt);
} // namespace throughbend
