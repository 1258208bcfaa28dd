#pragma once
// Stress, new state and forces of four cells at once; see equilibrium.h for the equations.

#include "solver/fem/cell_batch.h"

namespace throughbend
{
template <int dim>
THROUGHBEND_INLINED Lanes determinant(const Lanes (&m)[dim][dim])
{
  if constexpr (dim == 2)
    return m[0][0] * m[1][1] - m[0][1] * m[1][0];
  else
    return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1]) -
           m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0]) +
           m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
}

template <int dim>
THROUGHBEND_INLINED void invert(const Lanes (&m)[dim][dim], Lanes det,
                                Lanes (&inverse)[dim][dim])
{
  const Lanes f = 1. / det;
  if constexpr (dim == 2)
  {
    inverse[0][0] = f * m[1][1];
    inverse[0][1] = -f * m[0][1];
    inverse[1][0] = -f * m[1][0];
    inverse[1][1] = f * m[0][0];
  }
  else
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j < 3; ++j)
      {
        const int r = (j + 1) % 3, s = (j + 2) % 3, c = (i + 1) % 3, d = (i + 2) % 3;
        inverse[i][j] = f * (m[r][c] * m[s][d] - m[r][d] * m[s][c]);
      }
}

template <int dim>
THROUGHBEND_INLINED Lanes mean_in_plane(const Lanes (&tau)[n_symmetric<dim>])
{
  Lanes trace = tau[0] + tau[1];
  if (dim == 3)
    trace += tau[2];
  return trace / double(dim);
}

/// F at all points, J and d xi/dx; false where a cell is turned inside out.
template <int dim>
THROUGHBEND_INLINED bool evaluate_shape(const CellBatch<dim> &batch, const double *u,
                                        Lanes (&F)[n_cell_nodes<dim>][dim][dim],
                                        BatchState<dim> &state)
{
  constexpr int n = n_cell_nodes<dim>;
  Lanes         slope[dim][dim][n];
  for (int i = 0; i < dim; ++i)
  {
    Lanes nodal[n];
    for (int a = 0; a < n; ++a)
    {
      const unsigned(&dofs)[n_lanes] = batch.dofs[i * n + a];
      nodal[a] = Lanes{u[dofs[0]], u[dofs[1]], u[dofs[2]], u[dofs[3]]};
    }
    reference_slopes(nodal, slope[i]);
  }
  LaneMask bad = {};
  for (int q = 0; q < n; ++q)
  {
    const auto &A = batch.to_reference[q];
    for (int i = 0; i < dim; ++i)
      for (int k = 0; k < dim; ++k)
      {
        Lanes sum = all_lanes(i == k ? 1 : 0);
        for (int l = 0; l < dim; ++l)
          sum += slope[i][l][q] * A[l][k];
        F[q][i][k] = sum;
      }
    const Lanes J     = determinant<dim>(F[q]);
    state.jacobian[q] = J;
    bad |= ~((J > 0.) & (J < 1e300)); // also where it is not a number
    Lanes inverse[dim][dim];
    invert<dim>(F[q], J, inverse);
    for (int l = 0; l < dim; ++l)
      for (int k = 0; k < dim; ++k)
      {
        Lanes sum = A[l][0] * inverse[0][k];
        for (int m = 1; m < dim; ++m)
          sum += A[l][m] * inverse[m][k];
        state.to_reference[q][l][k] = sum;
      }
  }
  return !any(bad);
}

/// sum over the functions m of (sum over the points of weight f phi_m) phi_m.
template <int dim>
THROUGHBEND_INLINED void project(const CellBatch<dim> &batch,
                                 const Lanes (&f)[n_cell_nodes<dim>],
                                 Lanes (&projected)[n_cell_nodes<dim>])
{
  constexpr int n = n_cell_nodes<dim>;
  for (int q = 0; q < n; ++q)
    projected[q] = all_lanes(0);
  for (int m = 0; m < batch.n_dilatations; ++m)
  {
    Lanes overlap = all_lanes(0);
    for (int q = 0; q < n; ++q)
      overlap += batch.weight[q] * batch.dilatation[m][q] * f[q];
    for (int q = 0; q < n; ++q)
      projected[q] += overlap * batch.dilatation[m][q];
  }
}

/// Stress and new state at point q from F, which is made F_bar.
template <int dim>
THROUGHBEND_INLINED void update_point(const CellBatch<dim> &batch, int q,
                                      const PlasticState *accepted, PlasticState *latest,
                                      Lanes (&F)[dim][dim], BatchState<dim>      &state)
{
  const Lanes ratio = state.theta[q] / state.jacobian[q];
  const Lanes scale = dim == 2 ? square_root(ratio) : exponential(logarithm(ratio) / 3.);
  for (int i = 0; i < dim; ++i)
    for (int k = 0; k < dim; ++k)
      F[i][k] *= scale;
  if (batch.symmetric)
  {
    Lanes inverse[dim][dim];
    invert<dim>(F, dim == 2 ? state.theta[q] : determinant<dim>(F), inverse);
    J2Lanes<dim> point;
    j2_lanes<dim>(F, inverse, state.accepted[q], batch.material_at(q), point);
    state.axes[q] = point.axes;
    for (int i = 0; i < n_symmetric<dim>; ++i)
      state.kirchhoff[q][i] = point.kirchhoff[i];
    state.elastic += batch.weight[q] * point.elastic;
    state.plastic += batch.weight[q] * point.plastic;
    for (int l = 0; l < batch.n_cells; ++l)
    {
      PlasticState &to =
          latest[(batch.first + static_cast<unsigned>(l)) * CellBatch<dim>::n_points +
                 static_cast<unsigned>(q)];
      for (int i = 0; i < n_symmetric<dim>; ++i)
        to.inverse_plastic_metric[static_cast<unsigned>(i)] = point.inverse_metric[i][l];
      to.equivalent_plastic_strain = point.strain[l];
    }
    return;
  }
  PointUpdate<dim> point;
  for (int i = 0; i < dim; ++i)
    for (int k = 0; k < dim; ++k)
      for (int l = 0; l < n_lanes; ++l)
        point.F[i][k][l] = F[i][k][l];
  update_each<dim>(batch, q, accepted, latest, point,
                   state.tangent[static_cast<unsigned>(q)]);
  for (int i = 0; i < n_symmetric<dim>; ++i)
    state.kirchhoff[q][i] = loaded(point.kirchhoff[i]);
  state.elastic += batch.weight[q] * loaded(point.elastic);
  state.plastic += batch.weight[q] * loaded(point.plastic);
}

/// int tau : l = int (tau F^-T) : dN/dX, with tau's mean replaced by p*.
template <int dim>
THROUGHBEND_INLINED void sum_forces(const CellBatch<dim> &batch, BatchState<dim> &state)
{
  constexpr int n = n_cell_nodes<dim>;
  Lanes         flux[dim][dim][n];
  for (int q = 0; q < n; ++q)
  {
    const auto &tau  = state.kirchhoff[q];
    const auto &B    = state.to_reference[q];
    const Lanes lift = state.projected_pressure[q] - mean_in_plane<dim>(tau);
    for (int i = 0; i < dim; ++i)
      for (int l = 0; l < dim; ++l)
      {
        Lanes sum = lift * B[l][i];
        for (int k = 0; k < dim; ++k)
          sum += tau[symmetric_index(i, k)] * B[l][k];
        flux[i][l][q] = batch.weight[q] * sum;
      }
  }
  for (int i = 0; i < dim; ++i)
  {
    Lanes force[n];
    sum_slopes(flux[i], force);
    for (int a = 0; a < n; ++a)
      state.force[i * n + a] = force[a];
  }
}

/// All of it; false where a cell is turned inside out or a number is not finite.
template <int dim>
THROUGHBEND_INLINED bool evaluate_batch(const CellBatch<dim> &batch, const double *u,
                                        const PlasticState *accepted, PlasticState *latest,
                                        BatchState<dim> &state)
{
  constexpr int n = n_cell_nodes<dim>;
  Lanes         F[n][dim][dim];
  if (!evaluate_shape<dim>(batch, u, F, state))
    return false;
  project<dim>(batch, state.jacobian, state.theta);
  LaneMask good = state.theta[0] > 0.;
  for (int q = 1; q < n; ++q)
    good &= state.theta[q] > 0.;
  if (any(~good))
    return false;
  state.elastic = state.plastic = all_lanes(0);
  for (int q = 0; q < n; ++q)
    update_point<dim>(batch, q, accepted, latest, F[q], state);
  Lanes p_over_theta[n];
  for (int q = 0; q < n; ++q)
    p_over_theta[q] = mean_in_plane<dim>(state.kirchhoff[q]) / state.theta[q];
  project<dim>(batch, p_over_theta, state.projected_pressure);
  for (int q = 0; q < n; ++q)
    state.projected_pressure[q] *= state.jacobian[q];
  sum_forces<dim>(batch, state);
  return true;
}
} // namespace throughbend
