#pragma once
// Rounds the long edges of a body's mesh. Knows corners of cells only; where cells are cut
// is decided in coupon_grading.

#include "meshes/coupon/coupon_grading.h"

namespace throughbend
{
/// The long edges of a body. Plane models have sharp ones.
class RoundedEdges
{
public:
  /// Sharp ones.
  RoundedEdges() = default;

  /// The coupon's, on a grid that is cut where the rounding begins on faces and side.
  RoundedEdges(const Coupon &coupon, const CouponGrid &grid);

  bool   present() const { return radius_ > 0; }
  double radius() const { return radius_; } ///< [mm]; 0 = sharp

  /// The corner of a cell that lies at `grid` on the straight grid and at `sharp` on the
  /// coupon with sharp edges.
  CouponPoint rounded(const CouponPoint &grid, const CouponPoint &sharp) const;

private:
  double radius_ = 0, thickness_ = 0, half_width_ = 0; ///< [mm]
  /// Whether one cell fills the rounding at the convex and at the concave face.
  bool single_low_ = false, single_up_ = false;
};

/// Metal that rounding takes away from the section of the whole coupon [mm^2].
double section_lost(const Coupon &coupon);
} // namespace throughbend
