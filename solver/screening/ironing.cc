#include "solver/screening/ironing.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double half_pi = 1.57079632679489661923;

/// I0(2a), I1(2a) and the integral of I0(2s) from 0 to a.
struct FanSums
{
  double i0 = 0, i1 = 0, integral = 0;
};

FanSums fan_sums(const double a)
{
  FanSums sums;
  double  term = 1; // a^2k / k!^2
  for (int k = 0; k < 30; ++k)
  {
    sums.i0 += term;
    sums.i1 += term * a / (k + 1);
    sums.integral += term * a / (2 * k + 1);
    term *= a * a / ((k + 1.) * (k + 1.));
  }
  return sums;
}

double half_height(const double a)
{
  const FanSums sums = fan_sums(a);
  return sums.integral + sums.i0 / 2;
}
} // namespace

double bite_length(const Ironing &i)
{
  const double depth = std::min(i.excess, i.radius);
  return depth <= 0 ? 0 : std::sqrt(depth * (2 * i.radius - depth));
}

double bite_ratio(const Ironing &i)
{
  return (2 * i.room + i.excess) / bite_length(i);
}

double indentation_pressure(const double ratio)
{
  double low = 0, high = half_pi;
  if (ratio <= 1)
    return 1;
  if (ratio / 2 >= half_height(high))
    return 1 + half_pi;
  for (int k = 0; k < 50; ++k)
  {
    const double middle                            = (low + high) / 2;
    (half_height(middle) < ratio / 2 ? low : high) = middle;
  }
  const FanSums sums = fan_sums(low);
  return std::min(1 + 2 / ratio * (low * (sums.i0 + sums.i1) - sums.integral), 1 + half_pi);
}

double ironing_force(const Ironing &i, const double flow_stress)
{
  if (i.excess <= 0)
    return 0;
  const double pressure =
      2 / std::sqrt(3.) * flow_stress * indentation_pressure(bite_ratio(i));
  return pressure * (i.excess + i.friction * bite_length(i));
}

double capstan_ratio(const double friction, const double angle)
{
  return std::exp(friction * angle);
}
} // namespace throughbend
