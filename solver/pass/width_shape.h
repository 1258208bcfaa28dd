#pragma once
// Reads off a coupon with width what a plane model cannot show: how its edges curl, how the
// nose's gap differs from mid-width to edge, where across the width the convex face is
// stretched most, and the stress across the width at the crown. 3D only.

#include "solver/fem/pass_equations.h"
#include "solver/outcome/pass_sample.h"
#include "solver/pass/coupon_probe.h"
#include "solver/setup/pass_setup.h"

namespace throughbend
{
/// All but the gaps under the nose.
WidthShape width_shape(const PassSetup &setup, const PassEquations<3> &equations,
                       const CouponProbe<3> &probe, const Vector &u);

/// The stretch of the bend between the outermost places where the nose touches.
struct NoseStretch
{
  double from = 0, to = 0; ///< along the coupon in place [mm]
  double travel = 0;       ///< of the plunger [mm]
};
void put_nose_gaps(const PlacedCoupon &coupon, const NoseStretch &stretch,
                   const PassEquations<3> &equations, const CouponProbe<3> &probe,
                   const Vector &u, WidthShape &shape);
} // namespace throughbend
