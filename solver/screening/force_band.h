#pragma once
// Ram force along the travel, the stretch of the convex face and the springback as the beam
// model gives them, each with the band that a comparison with simulated passes asks for.
// Not a simulation: one metal, plane strain, no squeeze, no frame. Of a weld only the bands
// know: they reach from a coupon all of its softest zone to one all of its strongest.

#include "solver/screening/guided_beam.h"

#include <vector>

namespace throughbend
{
/// An estimate and what it may be off by.
struct Banded
{
  double low = 0, value = 0, high = 0;
};

/// The band at one travel, whole coupon.
struct ForcePoint
{
  double travel    = 0; ///< from first touch [mm]
  double leg_angle = 0; ///< from flat [rad]
  Banded force;         ///< [N]
};

struct ForceBand
{
  std::vector<ForcePoint> points; ///< by rising travel, up to legs of some 80 deg
  ForcePoint              peak;   ///< the highest
  bool bites = false;             ///< sharp shoulders sink into the legs, and cost force
  /// Then nothing tells how much more force, load and released energy there are.
  bool   may_touch_frame = false;
  bool   squeezed = false; ///< ends where plunger and shoulders begin to squeeze the legs
  Banded shoulder_force;   ///< largest on one shoulder, normal [N]
  Banded first_touch;      ///< ram force when the nose begins to wrap [N]
  Banded outer_strain;     ///< axial log strain of the convex face [-]
  Banded springback;       ///< of a leg, from upright [rad]
  double freed_energy = 0; ///< elastic, let go at most [N mm]
  BentStrip wrapped;       ///< the strip bent to the nose [per mm]
  double    hardening = 0; ///< d ln(moment) / d ln(curvature) there [-]
  bool   kinks = false; ///< hardens so little that the bend gathers under the first touch
  double straight_low  = 0; ///< peak: straight legs, no hardening [N]
  double straight_high = 0; ///< peak: straight legs, wrapped moment [N]
  /// Flow stress of the softest and the strongest zone over the plate's, of a weld that
  /// crosses the coupon [-]; 1: none.
  double softest_zone = 1, strongest_zone = 1;
};

ForceBand force_band(const Case &c);
} // namespace throughbend
