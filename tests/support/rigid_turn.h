#pragma once
// A plane mesh turned as a whole: what feels strain must not feel this.

#include "solver/fem/coupon_model.h"

#include <cmath>

namespace throughbend
{
/// Displacements [mm] of a turn by `angle` [rad] about the origin.
inline Vector rigid_turn(const CouponModel<2> &model, double angle)
{
  Vector       u(model.n_dofs());
  const double cosine = std::cos(angle), sine = std::sin(angle);
  for (const CellData<2> &cell : model.cells())
    for (unsigned a = 0; a < model.n_nodes_per_cell(); ++a)
    {
      const unsigned x = cell.dofs[a], y = cell.dofs[model.n_nodes_per_cell() + a];
      const auto    &X = model.nodes()[x];
      u[x]             = cosine * X[0] - sine * X[1] - X[0];
      u[y]             = sine * X[0] + cosine * X[1] - X[1];
    }
  return u;
}
} // namespace throughbend
