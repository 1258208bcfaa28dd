#pragma once
// Cuts half the width of a body, from the mid-plane to the free edge.

#include "inputs/case/case.h"
#include "meshes/coupon/coupon_shape.h"

#include <vector>

namespace throughbend
{
/// `layers` = of cells through the thickness; `along` = the grid's
/// lines along the coupon [mm]; `growth` = of cells from a line that wants fine ones [-].
std::vector<double> across_width(const Case &c, const CouponShape &shape, int layers,
                                 const std::vector<double> &along, double growth);
} // namespace throughbend
