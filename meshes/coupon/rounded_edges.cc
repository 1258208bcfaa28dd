#include "meshes/coupon/rounded_edges.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double pi    = 3.14159265358979323846;
constexpr double close = 1e-6; // [-] of the radius

/// Whether no line of the grid lies between two places.
bool empty(const std::vector<double> &lines, double from, double to)
{
  const double least = close * (to - from);
  return std::none_of(lines.begin(), lines.end(),
                      [&](double line)
                      { return line > from + least && line < to - least; });
}
} // namespace

RoundedEdges::RoundedEdges(const Coupon &coupon, const CouponGrid &grid)
    : radius_(grid.z.empty() ? 0. : coupon.edge_radius), thickness_(coupon.thickness),
      half_width_(coupon.width / 2)
{
  const bool side = radius_ > 0 && empty(grid.z, half_width_ - radius_, half_width_);
  single_low_     = side && empty(grid.y, 0, radius_);
  single_up_      = side && empty(grid.y, thickness_ - radius_, thickness_);
}

// The square beside an edge becomes a quarter of a disc: x sqrt(1 - y^2 / 2) and
// y sqrt(1 - x^2 / 2) leave the two inner sides where they are and put the two outer ones
// on the arc (Fong 2015, Analytical methods for squaring the disc, from memory).
CouponPoint RoundedEdges::rounded(const CouponPoint &grid, const CouponPoint &sharp) const
{
  if (!present())
    return sharp;
  const double low = (radius_ - grid.y) / radius_,
               up  = (grid.y - (thickness_ - radius_)) / radius_;
  const double z = (grid.z - (half_width_ - radius_)) / radius_, y = std::max(low, up);
  if (z <= close || y <= close)
    return sharp;
  double out_z = z * std::sqrt(1 - y * y / 2), out_y = y * std::sqrt(1 - z * z / 2);
  // A single cell has one corner between the two ends of the arc. There, it leaves as much
  // metal as the arc does.
  if (low > up ? single_low_ : single_up_)
    out_z = out_y = pi / 4;
  CouponPoint spot = sharp;
  spot.z -= radius_ * (z - out_z);
  spot.y += (low > up ? radius_ : -radius_) * (y - out_y);
  return spot;
}

double section_lost(const Coupon &coupon)
{
  return (4 - pi) * coupon.edge_radius * coupon.edge_radius;
}
} // namespace throughbend
