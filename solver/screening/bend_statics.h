#pragma once
// Three-point bending between round tools with legs taken as straight: exact geometry and
// statics of plunger, leg and shoulder, whatever the moment is. The moment itself, and how
// much the legs really curve, are worked out in other files.

#include "inputs/case/case.h"

namespace throughbend
{
/// Plunger, shoulders and coupon as far as straight-leg statics needs them [mm].
struct BendGeometry
{
  double nose_radius     = 0; ///< B
  double shoulder_radius = 0; ///< R_d
  double thickness       = 0; ///< t
  /// L0, from the centre of the nose's round (the plunger's centre line, if the nose is a
  /// half round) to a shoulder's centre.
  double half_span = 0;

  /// Q = B + R_d + t
  double reach() const { return nose_radius + shoulder_radius + thickness; }
};
BendGeometry bend_geometry(const Case &c);

/// A straight leg at one angle. Valid while the leg touches the nose and the shoulder's
/// arc.
///   stroke  S = Q - (Q - L0 sin beta) / cos beta
///   arm     a = (L0 - Q sin beta) / cos beta
///   length  s = (B + t/2) beta + a, along the coupon's middle from its centre to where it
///           lies on the shoulder
/// Source: elementary statics; the same geometry appears in Troive (2017) J. Phys. Conf.
/// Ser. 896 012006 (abstract only).
struct StraightLeg
{
  double angle  = 0; ///< beta of the leg from flat [rad]
  double stroke = 0; ///< [mm]
  double arm    = 0; ///< [mm]
  double length = 0; ///< [mm]
};
StraightLeg straight_leg(const BendGeometry &g, double angle);

/// Force on the shoulder, normal to the leg [N] or [N/mm], for a moment at the nose in [N
/// mm] or [N mm/mm]: N = M / (a + mu t / 2), friction acting half a thickness off the
/// middle.
double shoulder_force(const BendGeometry &g, const StraightLeg &leg, double moment,
                      double friction);

/// Ram force of both legs, F = 2 N (cos beta + mu sin beta); the coupon slides inward.
double ram_force(const StraightLeg &leg, double shoulder_force, double friction);

/// The largest of ram_force over all leg angles, for one moment.
struct HingePeak
{
  double      force = 0;
  StraightLeg leg;
};
HingePeak hinge_peak(const BendGeometry &g, double moment, double friction);
} // namespace throughbend
