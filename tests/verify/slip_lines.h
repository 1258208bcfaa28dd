#pragma once
// Pressure of two narrow smooth flat dies on a rigid, perfectly plastic slab in plane
// strain, from its slip-line field (Hill 1950, The Mathematical Theory of Plasticity).
// Integrated here step by step down the axis; nothing of the project's screening, whose
// closed sums tests/solver/screening compares with it, is in it.

#include <algorithm>
#include <cmath>

namespace throughbend::slip_lines
{
/// Modified Bessel functions I0(x) + I1(x) by their series.
inline double bessel_sum(double x)
{
  double sum = 0, even = 1, odd = x / 2;
  for (int k = 1; k < 40; ++k)
  {
    sum += even + odd;
    even *= x * x / 4 / (k * k);
    odd *= x * x / 4 / (k * (k + 1.));
  }
  return sum;
}

/// Mean pressure / 2k of two smooth dies of width w on a slab of height h, ratio = h / w:
/// the field of two equal fans, depth on the axis dy = w (I0(2a) + I1(2a)) da from w/2 on,
/// and no resultant across the axis: q/2k = 1 + (4/h) int a dy; from the height where the
/// punch's own field is less, that: 1 + pi/2.
inline double indentation_pressure(double ratio)
{
  constexpr double step = 1e-4;
  double           y = 0.5, sum = 0;
  for (double a = step / 2; y < ratio / 2; a += step)
  {
    const double dy = std::min(step * bessel_sum(2 * a), ratio / 2 - y);
    sum += a * dy;
    y += dy;
  }
  return std::min(1 + 4 / ratio * sum, 1 + std::acos(0.));
}
} // namespace throughbend::slip_lines
