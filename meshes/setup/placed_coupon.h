#pragma once
// The coupon as it lies in the fixture before the first step, worked out once: its place
// and height, which part of it is modelled, its shape and where its cells are cut. Makes no
// mesh.

#include "meshes/coupon/rounded_edges.h"

namespace throughbend
{
/// Dimensions are those of the whole coupon.
struct PlacedCoupon : Coupon
{
  PlacedCoupon(const Case &c, Extent modelled);

  int       dimension; ///< of the model: 2 = plane strain, 3 = with its width
  MeshLevel cells;     ///< level of the mesh
  Extent    extent;
  double    level; ///< of the flat coupon's convex face at travel 0 [mm]
  double    touch; ///< of the plunger's nose at travel 0 [mm]
  double    mass;  ///< of the whole coupon [kg]; 0 = not known
  /// Thickness where a cap or bead stands on the weld [mm]; without one, of the plate.
  double over_weld;

  /// Of the plate on the flat coupon at x from the plunger's centre, at its ends what it
  /// has there [mm].
  double plate_thickness(double x) const;

  CouponShape shape;
  CouponGrid  grid;

  RoundedEdges edges;
  double       flat_half_width() const { return width / 2 - edges.radius(); } ///< [mm]

  /// Cells may dilate by bilinear (trilinear) functions instead of linear ones. Where the
  /// dilatation of narrow and tall cells under tension is held to linear functions only,
  /// one like x y costs nothing, and past the strain at which a bar would neck a zigzag
  /// along the face grows from it. Bilinear ones leave it no room and still do not lock. So
  /// are the cells of a leg that is ironed, and Newton needs fewer iterations with them.
  bool bilinear_dilatation;
};

/// As the case is to be modelled, half or whole.
PlacedCoupon placed_coupon(const Case &c);
} // namespace throughbend
