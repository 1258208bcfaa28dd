#include "solver/mechanics/line_contact.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double pi = 3.14159265358979323846;

// Tools are taken as steel.
constexpr double tool_young = 210000, tool_poisson = 0.3;
} // namespace

double contact_modulus(const double young_1, const double poisson_1, const double young_2,
                       const double poisson_2)
{
  return 1 /
         ((1 - poisson_1 * poisson_1) / young_1 + (1 - poisson_2 * poisson_2) / young_2);
}

LineContact hertz_line(const double load, const double radius, const double modulus)
{
  LineContact contact;
  contact.half_width = std::sqrt(4 * load * radius / (pi * modulus));
  contact.pressure   = contact.half_width > 0 ? 2 * load / (pi * contact.half_width) : 0.;
  return contact;
}

double first_yield_pressure(const double yield)
{
  return 1.79 * yield;
}

double denting_pressure(const double yield)
{
  return (2 + pi) / std::sqrt(3.) * yield;
}

Bearing tool_bearing(const double load, const double radius, const Material &coupon,
                     const double stress)
{
  const double modulus =
      contact_modulus(coupon.young, coupon.poisson, tool_young, tool_poisson);
  const double      bears = denting_pressure(stress);
  const LineContact hertz = hertz_line(load, radius, modulus);
  return {std::min(bears, hertz.pressure), std::max(load / bears, 2 * hertz.half_width)};
}

double flattened_depth(const double load, const double radius, const double yield)
{
  const double half_width = load / (2 * denting_pressure(yield));
  return half_width * half_width / (2 * radius);
}
} // namespace throughbend
