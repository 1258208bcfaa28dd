#pragma once
// The tangent of the constitutive update against difference quotients.

#include "solver/mechanics/plastic_update.h"
#include "tests/support/matrices.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
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

/// Three large random steps from F and `state`, which are moved along: the largest such
/// error on the way.
template <int dim>
double flowing_tangent_error(Matrix3 &F, PlasticState &state, const PointMaterial &zone,
                             std::mt19937 &random)
{
  double error = 0;
  for (int step = 0; step < 3; ++step)
  {
    F     = product(random_deformation<dim>(random, 0.05), F);
    error = std::max(error, update_tangent_error<dim>(F, state, zone));
    state = plastic_update<dim>(F, state, zone).state;
  }
  return error;
}
} // namespace throughbend
