#pragma once
// Measures of the ram force: what tells a force from no force to speak of, what a plain
// pass takes, and what would wreck the fixture. Mesh-free.

#include "inputs/case.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
/// Plastic three-point bending force of the whole coupon [N]: 4 M / opening with the fully
/// plastic moment M = Y w t^2 / 4.
inline double bending_force(const Case &c)
{
  const double t = c.coupon.thickness;
  return c.material.flow.initial_stress() * t * t * c.coupon.width /
         c.fixture.shoulders.opening;
}

/// A tool that presses with less holds nothing [N]: a thousandth of that.
inline double no_force(const Case &c)
{
  return 1e-3 * bending_force(c);
}

/// Largest ram force of a plain pass of the coupon, roughly [N]: fully plastic three-point
/// bending in plane strain, 4 M / opening with M = 2 / sqrt(3) Y w t^2 / 4, Y the flow
/// stress at half the nominal strain t / (A + t). With grease, simulated passes lie within
/// a third.
inline double plain_peak(const Case &c)
{
  const double t        = c.coupon.thickness;
  const double nominal  = t / (c.fixture.plunger.width + t);
  const double strength = c.weld.present() ? std::max(1., c.weld.strength_ratio) : 1.;
  return 2 / std::sqrt(3.) * strength * c.material.flow.stress(nominal / 2) * t * t *
         c.coupon.width / c.fixture.shoulders.opening;
}

/// Ram force at which a coupon that has not gone on counts as jammed, in plain passes'
/// peaks [-]: far beyond it coupon, shoulders or frame are wrecks.
constexpr double wrecking_factor = 20;

inline double wrecking_force(const Case &c) ///< [N]
{
  return wrecking_factor * plain_peak(c);
}
} // namespace throughbend
