#include "tests/verify/plain_element.h"

#include <numeric>

namespace throughbend
{
template <int dim>
bool PlainElement<dim>::add_forces(const Vector &u, Vector &force)
{
  const std::size_t nodes = model_.n_nodes_per_cell(), count = model_.n_points_per_cell();
  energy_ = {};
  for (std::size_t c = 0; c < model_.cells().size(); ++c)
  {
    const CellData<dim> &cell = model_.cells()[c];
    for (std::size_t q = 0; q < count; ++q)
    {
      Matrix3 F = {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
      for (std::size_t i = 0; i < dim; ++i)
        for (std::size_t k = 0; k < dim; ++k)
          for (std::size_t a = 0; a < nodes; ++a)
            F[i][k] +=
                u[cell.dofs[i * nodes + a]] * cell.gradient[(q * dim + k) * nodes + a];
      const double J = determinant(F);
      if (!(J > 0))
        return false;
      const Matrix3 inverted = inverse(F, J);
      Point        &point    = points_[c * count + q];
      point.result           = j2_update<dim>(F, history_.accepted(c * count + q), zone_);
      point.gradient.assign(dim * nodes, 0.);
      for (std::size_t k = 0; k < dim; ++k)
        for (std::size_t a = 0; a < nodes; ++a)
          for (std::size_t l = 0; l < dim; ++l)
            point.gradient[k * nodes + a] +=
                cell.gradient[(q * dim + l) * nodes + a] * inverted[l][k];
      history_.latest(c * count + q) = point.result.state;
      energy_.elastic += cell.weight[q] * point.result.elastic_energy;
      energy_.plastic_step += cell.weight[q] * point.result.plastic_work;
      for (std::size_t i = 0; i < dim; ++i)
        for (std::size_t a = 0; a < nodes; ++a)
          for (std::size_t k = 0; k < dim; ++k)
            force[cell.dofs[i * nodes + a]] += cell.weight[q] *
                                               point.result.kirchhoff[i][k] *
                                               point.gradient[k * nodes + a];
    }
  }
  return true;
}

/// g : a[h] - tau : (g h) of every pair of unknowns.
template <int dim>
void PlainElement<dim>::add_tangent(LinearSystem &system)
{
  const std::size_t nodes = model_.n_nodes_per_cell(), count = model_.n_points_per_cell();
  const std::size_t n = dim * nodes;
  std::vector<unsigned> rows(n);
  std::iota(rows.begin(), rows.end(), 0u);
  for (std::size_t c = 0; c < model_.cells().size(); ++c)
  {
    std::vector<double> matrix(n * n, 0.);
    for (std::size_t q = 0; q < count; ++q)
    {
      const Point  &point  = points_[c * count + q];
      const double  weight = model_.cells()[c].weight[q];
      const double *g      = point.gradient.data();
      for (std::size_t i = 0; i < dim; ++i)
        for (std::size_t j = 0; j < dim; ++j)
          for (std::size_t k = 0; k < dim; ++k)
            for (std::size_t l = 0; l < dim; ++l)
            {
              // g = e_i x grad a, h = e_j x grad b: (g h) = e_i (grad a)_j x grad b.
              const double modulus = point.result.tangent[i * dim + k][j * dim + l] -
                                     (k == j ? point.result.kirchhoff[i][l] : 0.);
              for (std::size_t a = 0; a < nodes; ++a)
                for (std::size_t b = 0; b < nodes; ++b)
                  matrix[(i * nodes + a) * n + j * nodes + b] +=
                      weight * g[k * nodes + a] * modulus * g[l * nodes + b];
            }
    }
    system.add(static_cast<unsigned>(c), rows, matrix.data());
  }
}

template class PlainElement<2>;
} // namespace throughbend
