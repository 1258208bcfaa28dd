#include "solver/screening/ejection.h"

#include <cmath>

namespace throughbend
{
double ejection_bound(const Coupon &coupon, const double density, const double energy)
{
  const double mass =
      density * coupon.length * coupon.width * coupon.thickness * 1e-9; // [kg]
  return std::sqrt(2 * energy * 1e-3 / mass);
}
} // namespace throughbend
