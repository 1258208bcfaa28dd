#pragma once
// Measures of the ram force: what tells a force from no force to speak of, what a plain
// pass takes, and what would wreck the fixture. Mesh-free.

#include "inputs/case/case.h"

namespace throughbend
{
/// All [N], of the whole coupon.
struct ForceScale
{
  /// Plastic three-point bending force: 4 M / opening with the fully plastic moment
  /// M = Y w t^2 / 4.
  double bending = 0;

  /// A tool that presses with less holds nothing: a thousandth of that.
  double nothing = 0;

  /// Largest ram force of a plain pass of the coupon, roughly: fully plastic three-point
  /// bending in plane strain, 4 M / opening with M = 2 / sqrt(3) Y w t^2 / 4, Y the flow
  /// stress at half the nominal strain t / (A + t). With grease, simulated passes lie
  /// within a third.
  double plain_peak = 0;

  /// Ram force at which a coupon that has not gone on counts as jammed, twenty plain
  /// passes' peaks: far beyond them coupon, shoulders or frame are wrecks.
  double wrecking = 0;
};
ForceScale force_scale(const Case &c);
} // namespace throughbend
