#pragma once
// Where strain on a face is none of the bend's: the ends of the coupon, which a shoulder or
// a frame dents as they slip past it. How deep is the mesh's doing.

#include "inputs/case/coupon.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
/// `position` = along the flat coupon from its centre [mm]. As far in as the coupon is
/// thick.
inline bool is_at_an_end(const Coupon &coupon, const double position)
{
  return std::abs(position) >
         coupon.length / 2 - std::min(coupon.thickness, coupon.length / 4);
}
} // namespace throughbend
