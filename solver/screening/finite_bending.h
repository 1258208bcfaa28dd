#pragma once
// What moment it takes to bend a wide strip to a curvature, at strains that are not small:
// fibre by fibre, with radial stress, hardening and the elastic lag of fibres that are
// reversed near the neutral layer. Pure bending only: no shear, no tool pressing on a face.

#include "inputs/metal/flow_curve.h"
#include "inputs/metal/material.h"

#include <vector>

namespace throughbend
{
/// A strip bent to one curvature, per mm of width. Rotations are counted per unit of
/// original length, so that lengths along the flat coupon stay what they were.
struct BentStrip
{
  double rotation     = 0; ///< of the end planes per unit of original length [rad/mm]
  double moment       = 0; ///< [N mm/mm]
  double inner_radius = 0; ///< [mm]
  double thickness    = 0; ///< [mm]
  double outer_strain = 0; ///< axial log strain of the convex face [-]
  double inner_strain = 0; ///< axial log strain of the concave face [-]
  double co_work      = 0; ///< integral of rotation d(moment) so far [N/mm]
};

/// Moment over curvature of a strip, as points of rising moment.
///
/// Each fibre's stress difference S = s_axial - s_radial follows its log strain ln(r k),
/// r^2 = a^2 + 2 eta / k (incompressible; a inner radius, k rotation, eta original depth),
/// elastic with E' = E / (1 - nu^2), yielding at (2/sqrt3) s(p), unloading elastically. The
/// inner radius follows from a stress-free convex face, integral S / (k r^2) d(eta) = 0;
/// the moment is integral S d(eta) / (2 k). Source: Hill (1950), The Mathematical Theory of
/// Plasticity, ch. XI (from memory) for the rigid, perfectly plastic limit; elementary
/// mechanics for the rest.
class BendCurve
{
public:
  /// Up to where the inner radius is `tightest` [mm] > 0 and somewhat beyond.
  BendCurve(const Material &material, double thickness, double tightest);

  const std::vector<BentStrip> &points() const { return points_; }

  BentStrip at_moment(double moment) const;     ///< up to the last point's [N mm/mm]
  BentStrip at_radius(double inner) const;      ///< bent to an inner radius [mm]
  BentStrip at_rotation(double rotation) const; ///< [rad/mm]

  double stiffness() const { return stiffness_; } ///< E' t^3 / 12 [N mm^2/mm]

private:
  std::vector<BentStrip> points_; ///< from flat
  double                 stiffness_;
};
} // namespace throughbend
