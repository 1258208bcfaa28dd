#pragma once
// The patch test of a mesh: displacements linear in the place give the same stress in every
// cell, however its cells lean or are cut.

#include "solver/fem/equilibrium.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
/// Largest difference of a stress component anywhere from that of the first point under one
/// uniform stretch and shear [MPa]; the stress itself is some 300 MPa. NaN where the forces
/// could not be computed.
inline double stress_apart_under_uniform_stretch(const CouponModel<2> &model,
                                                 const Material       &m)
{
  Equilibrium<2> equilibrium(
      model, {4, ZoneMaterial{m.shear_modulus(), m.bulk_modulus(), m.flow}});
  Vector u(model.n_dofs()), force(model.n_dofs());
  for (const CellData<2> &cell : model.cells())
    for (unsigned a = 0; a < model.n_nodes_per_cell(); ++a)
    {
      const unsigned x = cell.dofs[a], y = cell.dofs[model.n_nodes_per_cell() + a];
      u[x] = 0.02 * model.nodes()[x][0] + 0.01 * model.nodes()[x][1];
      u[y] = -0.015 * model.nodes()[x][1];
    }
  if (!equilibrium.add_forces(u, force))
    return std::nan("");
  const Matrix3 &first = equilibrium.kirchhoff(0);
  double         apart = 0;
  for (std::size_t k = 0; k < model.cells().size(); ++k)
    for (std::size_t q = 0; q < model.n_points_per_cell(); ++q)
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j)
          apart = std::max(
              apart,
              std::abs(equilibrium.kirchhoff(equilibrium.point(k, q))[i][j] - first[i][j]));
  return apart;
}
} // namespace throughbend
