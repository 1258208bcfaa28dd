#pragma once
// Cuts the straight grid along the way on which a weld's zones follow each other.

#include "meshes/coupon/coupon_shape.h"

#include <functional>
#include <vector>

namespace throughbend
{
/// From the first of the shape's lines to the last [mm]; `wish` = size of a cell where no
/// line asks for less, by its place [mm]; `growth` = of cells over the distance from a line
/// that does [-].
std::vector<double> across_zones(const CouponShape                   &shape,
                                 const std::function<double(double)> &wish, double growth);
} // namespace throughbend
