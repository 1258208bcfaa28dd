#pragma once
// Where the coupon's cells are cut, in plain numbers: fine where it bends and touches and
// where strength changes, coarser in what stays straight, a line on every zone boundary.
// Makes no mesh.

#include "meshes/coupon/coupon_shape.h"

#include <vector>

namespace throughbend
{
/// Cell boundaries, each list ascending, on the straight grid: CouponShape makes the coupon
/// of it.
struct CouponGrid
{
  std::vector<double> x; ///< along, in the place where the flat coupon lies [mm]
  std::vector<double> y; ///< through the thickness, from the convex face = 0 [mm]
  std::vector<double> z; ///< across from the mid-plane, empty in a plane model [mm]
};
CouponGrid coupon_grid(const Case &c, Extent extent);

/// Length of the cells where a leg is ironed, infinity where none is [mm].
double ironed_cell(const Case &c);

/// How many times as long as wished the fine cells are, so that a quick mesh of a plane
/// model stays small; 1 on every other mesh [-].
double coarsening(const Case &c);

/// How many times as high or long as those of their level the cells are by `mesh.layers` or
/// `mesh.cell_size`; 1 where they are no larger [-]. What is known of a level's errors does
/// not hold for them.
double coarsening_by_hand(const Case &c);

/// The shape whose lines the grid has.
CouponShape coupon_shape(const Case &c, Extent extent);
} // namespace throughbend
