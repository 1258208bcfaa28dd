#pragma once
// A handful of cells with base, HAZ and weld in them, small enough for dense matrices.
// Dimensions are invented.

#include "solver/fem/coupon_model.h"
#include "tests/support/reference_case.h"

#include <random>

namespace throughbend
{
template <int dim>
Case small_coupon()
{
  Case c           = reference_case();
  c.coupon         = {24, 12, 8, 0};
  c.weld           = {8, 4, 0, 1.3, 0.8};
  c.mesh.model     = ModelChoice::full;
  c.mesh.dimension = dim;
  c.mesh.layers    = dim == 2 ? 2 : 1;
  c.mesh.cell_size = dim == 2 ? 4 : 12;
  return c;
}

inline void shake(Vector &u, std::mt19937 &random, double size)
{
  std::uniform_real_distribution<double> move(-size, size);
  for (double &value : u)
    value += move(random);
}
} // namespace throughbend
