#include "meshes/coupon/seam.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double close = 1e-6; // [mm] heights nearer than this are one
}

bool Seam::parts(double height) const
{
  return (height > span.low + close || (opens_below() && height > -close)) &&
         (height < span.high - close || (opens_above() && height < plate + close));
}

double Seam::half_gap(double height) const
{
  const double radius  = width / 2;
  double       from_it = 1e300; // distance from the nearer tip
  if (!opens_below())
    from_it = std::min(from_it, height - span.low);
  if (!opens_above())
    from_it = std::min(from_it, span.high - height);
  if (from_it <= 0 || radius <= 0)
    return 0;
  const double way = std::min(1., from_it / radius);
  return radius * std::sqrt(way * (2 - way));
}
} // namespace throughbend
