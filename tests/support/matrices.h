#pragma once
// 3x3 matrices that tests of points build: products, turns, random deformations, and the
// measures by which two are compared.

#include "solver/mechanics/small_matrix.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace throughbend
{
constexpr Matrix3 unit = {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};

inline Matrix3 product(const Matrix3 &a, const Matrix3 &b)
{
  Matrix3 c{};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
      for (std::size_t k = 0; k < 3; ++k)
        c[i][j] += a[i][k] * b[k][j];
  return c;
}

inline Matrix3 transposed(const Matrix3 &a)
{
  Matrix3 t{};
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
      t[i][j] = a[j][i];
  return t;
}

/// Largest difference of an entry.
inline double worst(const Matrix3 &a, const Matrix3 &b)
{
  double largest = 0;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
      largest = std::max(largest, std::abs(a[i][j] - b[i][j]));
  return largest;
}

inline double worst(const Symmetric3 &a, const Symmetric3 &b)
{
  return worst(full(a), full(b));
}

/// A turn by a [rad] about z.
inline Matrix3 about_z(double a)
{
  return {{{std::cos(a), -std::sin(a), 0}, {std::sin(a), std::cos(a), 0}, {0, 0, 1}}};
}

/// A turn by a [rad] about an oblique axis in the plane of x and y.
inline Matrix3 about_skew_axis(double a)
{
  const Matrix3 x = {
      {{1, 0, 0}, {0, std::cos(a), -std::sin(a)}, {0, std::sin(a), std::cos(a)}}};
  return product(product(about_z(0.7), x), transposed(about_z(0.7)));
}

/// Random F near the unit matrix, entries off it by up to `size` [-]; dim = 2: no
/// out-of-plane part.
template <int dim>
Matrix3 random_deformation(std::mt19937 &random, double size)
{
  std::uniform_real_distribution<double> entry(-size, size);
  Matrix3                                F = unit;
  for (std::size_t i = 0; i < dim; ++i)
    for (std::size_t j = 0; j < dim; ++j)
      F[i][j] += entry(random);
  return F;
}

/// Von Mises' equivalent of a stress, in its unit.
inline double von_mises(const Matrix3 &tau)
{
  const double mean = (tau[0][0] + tau[1][1] + tau[2][2]) / 3;
  double       sum  = 0;
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
    {
      const double s = tau[i][j] - (i == j ? mean : 0);
      sum += s * s;
    }
  return std::sqrt(1.5 * sum);
}
} // namespace throughbend
