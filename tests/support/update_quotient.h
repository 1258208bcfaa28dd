#pragma once
// The tangent of the constitutive update against difference quotients.

#include "solver/mechanics/plastic_update.h"

#include <algorithm>
#include <cmath>

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

/// Largest error of the tangent against central difference quotients along
/// F -> (1 + eps H) F, relative to the largest modulus.
template <int dim>
double update_tangent_error(const Matrix3 &F, const PlasticState &old,
                            const PointMaterial &zone)
{
  constexpr double      eps    = 1e-7;
  const J2Result<dim>   result = plastic_update<dim>(F, old, zone);
  double                error = 0, size = 0;
  constexpr std::size_t d = dim;
  for (std::size_t k = 0; k < d; ++k)
    for (std::size_t l = 0; l < d; ++l)
    {
      Matrix3 plus = unit, minus = unit;
      plus[k][l] += eps;
      minus[k][l] -= eps;
      const Matrix3 up   = plastic_update<dim>(product(plus, F), old, zone).kirchhoff,
                    down = plastic_update<dim>(product(minus, F), old, zone).kirchhoff;
      for (std::size_t i = 0; i < d; ++i)
        for (std::size_t j = 0; j < d; ++j)
        {
          const double modulus = result.tangent[i * d + j][k * d + l];
          size                 = std::max(size, std::abs(modulus));
          error = std::max(error, std::abs((up[i][j] - down[i][j]) / (2 * eps) - modulus));
        }
    }
  return error / size;
}

} // namespace throughbend
