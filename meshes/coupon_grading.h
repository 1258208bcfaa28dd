#pragma once
// Where the coupon's cells are cut, in plain numbers: fine where it bends and touches,
// coarser in what stays straight, a line on every zone boundary. Makes no mesh.

#include "inputs/case.h"

#include <vector>

namespace throughbend
{
/// Which half or whole of the coupon is modelled.
enum class Extent
{
  half, ///< x >= 0, mirrored at the plunger's centre line
  full
};

/// Half when everything is the same left and right and the user did not ask for the full
/// one.
Extent model_extent(const Case &c);

/// Cell boundaries, each list ascending.
struct CouponGrid
{
  std::vector<double> x; ///< along, in the place where the flat coupon lies [mm]
  std::vector<double> y; ///< through the thickness, from the convex face = 0 [mm]
  std::vector<double> z; ///< across from the mid-plane, empty in a plane model [mm]
};
CouponGrid coupon_grid(const Case &c, Extent extent);

/// 0 base, 1 HAZ, 2 weld at a position along the flat coupon from its centre [mm].
int zone_at(const Weld &weld, double position);
} // namespace throughbend
