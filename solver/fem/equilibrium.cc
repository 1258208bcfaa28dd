#include "solver/fem/equilibrium.h"

#include "solver/mechanics/mixed_update.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace throughbend
{
namespace
{
constexpr Matrix3 unit = {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};

template <int dim>
double mean_in_plane(const Matrix3 &tau)
{
  double trace = 0;
  for (int k = 0; k < dim; ++k)
    trace += tau[k][k];
  return trace / dim;
}
} // namespace

template <int dim>
Equilibrium<dim>::Equilibrium(const CouponModel<dim>   &model,
                              std::vector<ZoneMaterial> zones)
    : model_(model), zones_(std::move(zones)), n_nodes_(model.n_nodes_per_cell()),
      n_points_(model.n_points_per_cell()), n_local_(dim * n_nodes_),
      n_dilatations_(model.n_dilatations()), history_(model.cells().size() * n_points_),
      points_(model.cells().size() * n_points_), u_cell_(n_local_), force_cell_(n_local_),
      matrix_(n_local_ * n_local_), gradient_(dim * n_nodes_), rate_(n_points_ * n_local_),
      column_(n_x), all_rows_(n_local_)
{
  std::iota(all_rows_.begin(), all_rows_.end(), 0u);
}

template <int dim>
J2Result<dim> Equilibrium<dim>::update_of_mix(const Matrix3 &F, const PlasticState &old,
                                              const StrengthMix &mix) const
{
  const ZoneMaterial &first  = zones_[static_cast<std::size_t>(mix.first)],
                     &second = zones_[static_cast<std::size_t>(mix.second)];
  if (mix.share == 0)
    return j2_update<dim>(F, old, first);
  return j2_update<dim>(F, old, first, {&second.flow, mix.share});
}

template <int dim>
bool Equilibrium<dim>::evaluate_cell(std::size_t c, const std::vector<double> &u_cell)
{
  const CellData<dim>    &cell = model_.cells()[c];
  std::array<Matrix3, 27> F;
  std::array<double, 27>  p_over_theta{};

  for (std::size_t q = 0; q < n_points_; ++q)
  {
    F[q] = unit;
    for (int k = 0; k < dim; ++k)
    {
      const double *const grad = &cell.gradient[(q * dim + k) * n_nodes_];
      for (int i = 0; i < dim; ++i)
      {
        const double *const u   = &u_cell[i * n_nodes_];
        double              sum = 0;
        for (std::size_t a = 0; a < n_nodes_; ++a)
          sum += u[a] * grad[a];
        F[q][i][k] += sum;
      }
    }
    Point &point   = points_[c * n_points_ + q];
    point.jacobian = determinant(F[q]);
    if (!(point.jacobian > 0) || !std::isfinite(point.jacobian))
      return false;
    point.inverse_gradient = inverse(F[q], point.jacobian);
    point.theta            = 0;
  }
  for (std::size_t m = 0; m < n_dilatations_; ++m)
  {
    const double *const phi     = &cell.dilatation_basis[m * n_points_];
    double              overlap = 0;
    for (std::size_t q = 0; q < n_points_; ++q)
      overlap += cell.weight[q] * phi[q] * points_[c * n_points_ + q].jacobian;
    for (std::size_t q = 0; q < n_points_; ++q)
      points_[c * n_points_ + q].theta += overlap * phi[q];
  }

  const ZoneMaterial &zone = zones_[static_cast<std::size_t>(cell.zone)];
  for (std::size_t q = 0; q < n_points_; ++q)
  {
    Point &point = points_[c * n_points_ + q];
    if (!(point.theta > 0))
      return false;
    const double ratio = point.theta / point.jacobian;
    const double scale = dim == 2 ? std::sqrt(ratio) : std::cbrt(ratio);
    Matrix3      F_bar = F[q];
    for (int i = 0; i < dim; ++i)
      for (int k = 0; k < dim; ++k)
        F_bar[i][k] *= scale;
    const PlasticState &old            = history_.accepted(c * n_points_ + q);
    const J2Result<dim> result         = mixes_.empty()
                                             ? plastic_update<dim>(F_bar, old, zone)
                                             : update_of_mix(F_bar, old, mixes_[c * n_points_ + q]);
    point.kirchhoff                    = result.kirchhoff;
    point.tangent                      = result.tangent;
    history_.latest(c * n_points_ + q) = result.state;
    p_over_theta[q]                    = mean_in_plane<dim>(result.kirchhoff) / point.theta;
    point.projected_pressure           = 0;
    energy_.elastic += cell.weight[q] * result.elastic_energy;
    energy_.plastic_step += cell.weight[q] * result.plastic_work;
  }
  for (std::size_t m = 0; m < n_dilatations_; ++m)
  {
    const double *const phi     = &cell.dilatation_basis[m * n_points_];
    double              overlap = 0;
    for (std::size_t q = 0; q < n_points_; ++q)
      overlap += cell.weight[q] * phi[q] * p_over_theta[q];
    for (std::size_t q = 0; q < n_points_; ++q)
      points_[c * n_points_ + q].projected_pressure +=
          overlap * phi[q] * points_[c * n_points_ + q].jacobian;
  }
  return true;
}

template <int dim>
void Equilibrium<dim>::spatial_gradients(std::size_t c, std::size_t q)
{
  const CellData<dim> &cell = model_.cells()[c];
  const Matrix3       &inv  = points_[c * n_points_ + q].inverse_gradient;
  for (int k = 0; k < dim; ++k)
    for (std::size_t a = 0; a < n_nodes_; ++a)
    {
      double sum = 0;
      for (int l = 0; l < dim; ++l)
        sum += cell.gradient[(q * dim + l) * n_nodes_ + a] * inv[l][k];
      gradient_[k * n_nodes_ + a] = sum;
    }
}

template <int dim>
bool Equilibrium<dim>::add_forces(const Vector &u, Vector &force)
{
  energy_   = {};
  bool good = true;
  for (std::size_t c = 0; c < model_.cells().size() && good; ++c)
  {
    const CellData<dim> &cell = model_.cells()[c];
    for (std::size_t i = 0; i < n_local_; ++i)
      u_cell_[i] = u[cell.dofs[i]];
    good = evaluate_cell(c, u_cell_);
    if (!good)
      break;

    std::fill(force_cell_.begin(), force_cell_.end(), 0.);
    for (std::size_t q = 0; q < n_points_; ++q)
    {
      const Point &point = points_[c * n_points_ + q];
      spatial_gradients(c, q);
      Matrix3      tau  = point.kirchhoff;
      const double lift = point.projected_pressure - mean_in_plane<dim>(tau);
      for (int k = 0; k < dim; ++k)
        tau[k][k] += lift;
      for (int i = 0; i < dim; ++i)
        for (int k = 0; k < dim; ++k)
        {
          const double        factor = cell.weight[q] * tau[i][k];
          const double *const grad   = &gradient_[k * n_nodes_];
          double *const       f      = &force_cell_[i * n_nodes_];
          for (std::size_t a = 0; a < n_nodes_; ++a)
            f[a] += factor * grad[a];
        }
    }
    for (std::size_t i = 0; i < n_local_; ++i)
      force[cell.dofs[i]] += force_cell_[i];
  }
  return good;
}

template <int dim>
void Equilibrium<dim>::dilatation_rates(std::size_t c)
{
  // D_i = Pi[J div_i] / theta
  const CellData<dim> &cell = model_.cells()[c];
  std::fill(rate_.begin(), rate_.end(), 0.);
  std::vector<double> overlap(n_dilatations_ * n_local_, 0.);
  for (std::size_t q = 0; q < n_points_; ++q)
  {
    spatial_gradients(c, q); // div of unknown (k, a) is dN_a/dx_k
    for (std::size_t m = 0; m < n_dilatations_; ++m)
    {
      const double factor = cell.weight[q] * cell.dilatation_basis[m * n_points_ + q] *
                            points_[c * n_points_ + q].jacobian;
      for (std::size_t i = 0; i < n_local_; ++i)
        overlap[m * n_local_ + i] += factor * gradient_[i];
    }
  }
  for (std::size_t q = 0; q < n_points_; ++q)
    for (std::size_t m = 0; m < n_dilatations_; ++m)
    {
      const double factor =
          cell.dilatation_basis[m * n_points_ + q] / points_[c * n_points_ + q].theta;
      for (std::size_t i = 0; i < n_local_; ++i)
        rate_[q * n_local_ + i] += factor * overlap[m * n_local_ + i];
    }
}

/// The matrix M (symmetric where a is) of the tangent's density in x = (l, D):
///   h_i : a : h_j - tau : (l_i l_j) + (p - p*) tr(l_i l_j) + p* div_i div_j - p D_i D_j,
///   h = l + (D - div) / d on the diagonal.
template <int dim>
void Equilibrium<dim>::form_modulus(const Point &point)
{
  constexpr int n      = dim * dim;
  const auto   &a      = point.tangent;
  const double  p      = mean_in_plane<dim>(point.kirchhoff);
  const double  p_star = point.projected_pressure;

  // a acting on the unit matrix, from either side, and on both.
  std::array<double, n> right{}, left{};
  double                both = 0;
  for (int r = 0; r < n; ++r)
    for (int k = 0; k < dim; ++k)
    {
      right[r] += a[r][k * dim + k];
      left[r] += a[k * dim + k][r];
    }
  for (int k = 0; k < dim; ++k)
    both += right[k * dim + k];

  const auto       diagonal = [](int r) { return r % (dim + 1) == 0 ? 1. : 0.; };
  constexpr double d        = dim;
  for (int r = 0; r < n; ++r)
    for (int s = 0; s < n; ++s)
      modulus_[r][s] = a[r][s] - right[r] * diagonal(s) / d - diagonal(r) * left[s] / d +
                       (both / (d * d) + p_star) * diagonal(r) * diagonal(s);
  for (int r = 0; r < n; ++r)
  {
    modulus_[r][n] = right[r] / d - diagonal(r) * both / (d * d);
    modulus_[n][r] = left[r] / d - diagonal(r) * both / (d * d);
  }
  modulus_[n][n] = both / (d * d) - p;
  for (int i = 0; i < dim; ++i)
    for (int j = 0; j < dim; ++j)
    {
      modulus_[i * dim + j][j * dim + i] += p - p_star; // tr(l_i l_j)
      for (int k = 0; k < dim; ++k)                     // tau_ik g_ij h_jk
        modulus_[i * dim + j][j * dim + k] -= point.kirchhoff[i][k];
    }
}

template <int dim>
void Equilibrium<dim>::add_tangent(LinearSystem &system)
{
  for (std::size_t c = 0; c < model_.cells().size(); ++c)
  {
    const CellData<dim> &cell = model_.cells()[c];
    // A backstress makes M unsymmetric: then M^T and all blocks instead of half of them.
    const bool symmetric = !zones_[static_cast<std::size_t>(cell.zone)].kinematic.present();
    dilatation_rates(c);
    std::fill(matrix_.begin(), matrix_.end(), 0.);
    for (std::size_t q = 0; q < n_points_; ++q)
    {
      spatial_gradients(c, q);
      form_modulus(points_[c * n_points_ + q]);
      if (!symmetric)
        for (int r = 0; r < n_x; ++r)
          for (int s = 0; s < r; ++s)
            std::swap(modulus_[r][s], modulus_[s][r]);
      const double *const D = &rate_[q * n_local_];
      const double        w = cell.weight[q];
      // Unknown (component, node): its l has one row only, l[component][k] = dN/dx_k.
      for (int cj = 0; cj < dim; ++cj)
        for (std::size_t b = 0; b < n_nodes_; ++b)
        {
          const std::size_t j = cj * n_nodes_ + b;
          for (int r = 0; r < n_x; ++r)
          {
            double sum = modulus_[r][n_x - 1] * D[j];
            for (int k = 0; k < dim; ++k)
              sum += modulus_[r][cj * dim + k] * gradient_[k * n_nodes_ + b];
            column_[r] = w * sum;
          }
          // Row j by symmetry: matrix_[j][i] runs over contiguous i; half of the blocks.
          for (int ci = 0; ci <= (symmetric ? cj : dim - 1); ++ci)
          {
            double *const       out = &matrix_[j * n_local_ + ci * n_nodes_];
            const double *const Di  = &D[ci * n_nodes_];
            const double        m_d = column_[n_x - 1];
            for (std::size_t a = 0; a < n_nodes_; ++a)
            {
              double sum = m_d * Di[a];
              for (int k = 0; k < dim; ++k)
                sum += column_[ci * dim + k] * gradient_[k * n_nodes_ + a];
              out[a] += sum;
            }
          }
        }
    }
    for (int cj = 0; cj < dim && symmetric; ++cj)
      for (int ci = cj + 1; ci < dim; ++ci)
        for (std::size_t b = 0; b < n_nodes_; ++b)
          for (std::size_t a = 0; a < n_nodes_; ++a)
            matrix_[(cj * n_nodes_ + b) * n_local_ + ci * n_nodes_ + a] =
                matrix_[(ci * n_nodes_ + a) * n_local_ + cj * n_nodes_ + b];
    system.add(static_cast<unsigned>(c), all_rows_, matrix_.data());
  }
}

template class Equilibrium<2>;
template class Equilibrium<3>;
} // namespace throughbend
