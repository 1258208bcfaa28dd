#pragma once
// Turns the record of a pass and the reason it stopped into a finding with evidence. Knows
// no mesh: everything is decided on samples, so it can be tested with made-up ones.

#include "inputs/case.h"
#include "solver/pass/finding.h"
#include "solver/pass/pass_sample.h"

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
  failed       ///< the computation broke down (the release, an impossible shape)
};

/// Leg angle below which a coupon that left the shoulders counts as unbent [deg]: half of
/// the quarter turn that each leg of a finished U has made.
constexpr double unbent_angle = 45;

/// Overlap of a flaw's lips over the thickness beyond which the pass is no longer physical
/// [-]: twice what tools may penetrate unless told otherwise.
constexpr double shut_overlap = 1e-3;

/// The flaw, by its place in PassSample::flaws, whose lips have run into each other deepest
/// and further than that; nothing when none has.
std::optional<std::size_t> shut_flaw(const Case &c, const PassSample &sample);

/// Evidence that a coupon will not go on, from the last sample and the run of the force.
/// Empty when there is none.
struct JamEvidence
{
  JamKind     kind = JamKind::other;
  std::string where;
  Evidence    account;
};
std::optional<JamEvidence> jam_evidence(const Case                    &c,
                                        const std::vector<PassSample> &samples);

/// Never calls a stop of the computation a jam without evidence.
Finding decide(const Case &c, const std::vector<PassSample> &samples, StopReason reason);
} // namespace throughbend
