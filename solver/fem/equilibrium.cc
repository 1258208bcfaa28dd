#include "solver/fem/equilibrium.h"

#include "solver/mechanics/plastic_update.h"

#include <algorithm>
#include <atomic>
#include <cassert>
#include <cmath>
#include <stdexcept>
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

#ifndef NDEBUG
template <typename Matrix>
bool is_symmetric(const Matrix &m)
{
  double largest = 0, skew = 0;
  for (std::size_t r = 0; r < m.size(); ++r)
    for (std::size_t s = 0; s < m.size(); ++s)
    {
      largest = std::max(largest, std::abs(m[r][s]));
      skew    = std::max(skew, std::abs(m[r][s] - m[s][r]));
    }
  return skew <= 1e-8 * largest;
}
#endif
} // namespace

template <int dim>
Equilibrium<dim>::Equilibrium(const CouponModel<dim>   &model,
                              std::vector<ZoneMaterial> zones, unsigned n_threads)
    : model_(model), zones_(std::move(zones)), history_(model.cells().size() * n_points),
      points_(model.cells().size() * n_points), cell_forces_(model.cells().size()),
      cell_energies_(model.cells().size()), crew_(std::make_unique<CellCrew>(n_threads))
{
  if (model.n_nodes_per_cell() != n_nodes || model.n_points_per_cell() != n_points)
    throw std::logic_error("Equilibrium is written for quadratic cells");
  materials_.reserve(points_.size());
  for (const CellData<dim> &cell : model_.cells())
    materials_.insert(materials_.end(), n_points,
                      zones_.at(static_cast<std::size_t>(cell.zone)));
  make_room_for_tangents();
  colour_cells();
}

template <int dim>
void Equilibrium<dim>::mix(const std::vector<StrengthMix> &mixes)
{
  if (mixes.size() != points_.size())
    throw std::invalid_argument("a mix is needed for each point");
  for (std::size_t p = 0; p < mixes.size(); ++p)
    materials_[p] = {zones_.at(static_cast<std::size_t>(mixes[p].first)),
                     zones_.at(static_cast<std::size_t>(mixes[p].second)), mixes[p].share};
  make_room_for_tangents();
}

template <int dim>
void Equilibrium<dim>::make_room_for_tangents()
{
  const bool all = std::all_of(materials_.begin(), materials_.end(),
                               [](const PointMaterial &m) { return m.symmetric(); });
  tangents_.resize(all ? 0 : points_.size());
}

/// Greedy: each cell takes the first colour that no cell with a common node has.
template <int dim>
void Equilibrium<dim>::colour_cells()
{
  std::vector<std::vector<bool>> taken; // of each colour, by unknown
  for (std::size_t c = 0; c < model_.cells().size(); ++c)
  {
    const std::vector<unsigned> &dofs   = model_.cells()[c].dofs;
    std::size_t                  colour = 0;
    for (; colour < taken.size(); ++colour)
      if (std::none_of(dofs.begin(), dofs.end(),
                       [&](unsigned dof) { return taken[colour][dof]; }))
        break;
    if (colour == taken.size())
    {
      taken.emplace_back(model_.n_dofs(), false);
      colours_.emplace_back();
    }
    for (const unsigned dof : dofs)
      taken[colour][dof] = true;
    colours_[colour].push_back(c);
  }
}

template <int dim>
bool Equilibrium<dim>::symmetric(std::size_t cell) const
{
  const auto first = materials_.begin() + static_cast<std::ptrdiff_t>(cell * n_points);
  return tangents_.empty() ||
         std::all_of(first, first + n_points,
                     [](const PointMaterial &m) { return m.symmetric(); });
}

template <int dim>
J2Energy Equilibrium<dim>::update(std::size_t index, const Matrix3 &F_bar)
{
  Point &point = points_[index];
  return plastic_stress<dim>(F_bar, history_.accepted(index), materials_[index],
                             point.kirchhoff, history_.latest(index), point.axes,
                             tangents_.empty() ? nullptr : &tangents_[index]);
}

template <int dim>
bool Equilibrium<dim>::evaluate_cell(std::size_t c, const Vector &u)
{
  const CellData<dim>          &cell   = model_.cells()[c];
  Point *const                  points = &points_[c * n_points];
  std::array<double, n_local>   u_cell;
  std::array<Matrix3, n_points> F;
  std::array<double, n_points>  p_over_theta;
  for (int i = 0; i < n_local; ++i)
  {
    assert(cell.dofs[i] < u.size() && "the cell has an unknown that the model has not");
    u_cell[i] = u.begin()[cell.dofs[i]];
  }

  for (int q = 0; q < n_points; ++q)
  {
    F[q] = unit;
    std::array<std::array<double, dim>, dim> H{}; // du/dX
    const double *const                      grad = &cell.gradient[q * dim * n_nodes];
    for (int a = 0; a < n_nodes; ++a)
      for (int i = 0; i < dim; ++i)
        for (int k = 0; k < dim; ++k)
          H[i][k] += u_cell[i * n_nodes + a] * grad[k * n_nodes + a];
    for (int i = 0; i < dim; ++i)
      for (int k = 0; k < dim; ++k)
        F[q][i][k] += H[i][k];
    Point &point   = points[q];
    point.jacobian = determinant(F[q]);
    if (!(point.jacobian > 0) || !std::isfinite(point.jacobian))
      return false;
    point.inverse_gradient = inverse(F[q], point.jacobian);
    point.theta            = 0;
  }
  for (unsigned m = 0; m < model_.n_dilatations(); ++m)
  {
    const double *const phi     = &cell.dilatation_basis[m * n_points];
    double              overlap = 0;
    for (int q = 0; q < n_points; ++q)
      overlap += cell.weight[q] * phi[q] * points[q].jacobian;
    for (int q = 0; q < n_points; ++q)
      points[q].theta += overlap * phi[q];
  }

  StrainEnergy energy;
  for (int q = 0; q < n_points; ++q)
  {
    Point &point = points[q];
    if (!(point.theta > 0))
      return false;
    const double ratio = point.theta / point.jacobian;
    const double scale = dim == 2 ? std::sqrt(ratio) : std::cbrt(ratio);
    for (int i = 0; i < dim; ++i)
      for (int k = 0; k < dim; ++k)
        F[q][i][k] *= scale;
    const J2Energy of_point  = update(c * n_points + q, F[q]);
    p_over_theta[q]          = mean_in_plane<dim>(point.kirchhoff) / point.theta;
    point.projected_pressure = 0;
    energy.elastic += cell.weight[q] * of_point.elastic;
    energy.plastic_step += cell.weight[q] * of_point.plastic;
  }
  cell_energies_[c] = energy;
  for (unsigned m = 0; m < model_.n_dilatations(); ++m)
  {
    const double *const phi     = &cell.dilatation_basis[m * n_points];
    double              overlap = 0;
    for (int q = 0; q < n_points; ++q)
      overlap += cell.weight[q] * phi[q] * p_over_theta[q];
    for (int q = 0; q < n_points; ++q)
      points[q].projected_pressure += overlap * phi[q] * points[q].jacobian;
  }
  return true;
}

template <int dim>
void Equilibrium<dim>::add_cell_forces(std::size_t c)
{
  // int tau : l = int (tau F^-T) : dN/dX, so gradients in space are not needed.
  const CellData<dim>         &cell  = model_.cells()[c];
  std::array<double, n_local> &force = cell_forces_[c];
  force.fill(0.);
  for (int q = 0; q < n_points; ++q)
  {
    const Point &point = points_[c * n_points + q];
    Matrix3      tau   = point.kirchhoff;
    const double lift  = point.projected_pressure - mean_in_plane<dim>(tau);
    for (int k = 0; k < dim; ++k)
      tau[k][k] += lift;
    const double *const grad = &cell.gradient[q * dim * n_nodes];
    for (int i = 0; i < dim; ++i)
    {
      std::array<double, dim> row{};
      for (int l = 0; l < dim; ++l)
        for (int k = 0; k < dim; ++k)
          row[l] += cell.weight[q] * tau[i][k] * point.inverse_gradient[l][k];
      double *const f = &force[i * n_nodes];
      for (int l = 0; l < dim; ++l)
        for (int a = 0; a < n_nodes; ++a)
          f[a] += row[l] * grad[l * n_nodes + a];
    }
  }
}

template <int dim>
bool Equilibrium<dim>::add_forces(const Vector &u, Vector &force)
{
  std::atomic<bool> good(true);
  crew_->each(model_.cells().size(),
              [&](std::size_t c)
              {
                if (!good.load(std::memory_order_relaxed))
                  return;
                if (evaluate_cell(c, u))
                  add_cell_forces(c);
                else
                  good = false;
              });
  energy_ = {};
  if (!good)
    return false;
  // Always in the order of the cells, whoever evaluated them.
  for (std::size_t c = 0; c < model_.cells().size(); ++c)
  {
    const std::vector<unsigned> &dofs = model_.cells()[c].dofs;
    for (int i = 0; i < n_local; ++i)
      force.begin()[dofs[i]] += cell_forces_[c][i];
    energy_.elastic += cell_energies_[c].elastic;
    energy_.plastic_step += cell_energies_[c].plastic_step;
  }
  return true;
}

/// The matrix M (symmetric where a is) of the tangent's density in x = (l, D), times the
/// weight:
///   h_i : a : h_j - tau : (l_i l_j) + (p - p*) tr(l_i l_j) + p* div_i div_j - p D_i D_j,
///   h = l + (D - div) / d on the diagonal.
template <int dim>
void Equilibrium<dim>::form_modulus(std::size_t index, double weight, Modulus &m) const
{
  constexpr int        n     = dim * dim;
  const Point         &point = points_[index];
  MaterialTangent<dim> a;
  plastic_tangent<dim>(materials_[index], point.axes,
                       tangents_.empty() ? nullptr : &tangents_[index], a);
  const double p      = mean_in_plane<dim>(point.kirchhoff);
  const double p_star = point.projected_pressure;

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

  constexpr double d    = dim;
  constexpr int    step = dim + 1; // from one diagonal entry to the next
  for (int r = 0; r < n; ++r)
    for (int s = 0; s < n; ++s)
      m[r][s] = a[r][s];
  for (int k = 0; k < n; k += step)
    for (int r = 0; r < n; ++r)
    {
      m[r][k] -= right[r] / d;
      m[k][r] -= left[r] / d;
    }
  for (int k = 0; k < n; k += step)
    for (int l = 0; l < n; l += step)
      m[k][l] += both / (d * d) + p_star;
  for (int r = 0; r < n; ++r)
  {
    m[r][n] = right[r] / d;
    m[n][r] = left[r] / d;
  }
  for (int k = 0; k < n; k += step)
  {
    m[k][n] -= both / (d * d);
    m[n][k] -= both / (d * d);
  }
  m[n][n] = both / (d * d) - p;
  for (int i = 0; i < dim; ++i)
    for (int j = 0; j < dim; ++j)
    {
      m[i * dim + j][j * dim + i] += p - p_star; // tr(l_i l_j)
      for (int k = 0; k < dim; ++k)              // tau_ik g_ij h_jk
        m[i * dim + j][j * dim + k] -= point.kirchhoff[i][k];
    }
  assert((!materials_[index].symmetric() || is_symmetric(m)) &&
         "half of the blocks would be thrown away wrongly");
  for (auto &row : m)
    for (double &entry : row)
      entry *= weight;
}

/// The rows of all points of a cell, one above the other, in padded rows of nodes.
template <int dim>
struct Equilibrium<dim>::TangentScratch
{
  static constexpr int width = padded_nodes<dim>;
  using Rows                 = double[n_points][width];

  alignas(32) double gradient[n_points][dim][width]; ///< dN_a/dx_k
  alignas(32) Rows rate[dim];                        ///< D of component, node
  alignas(32) double right_gradient[n_points][dim][width];
  alignas(32) Rows right_rate;
  alignas(32) double block[n_nodes][width];
  alignas(32) double matrix[n_local * n_local];
  std::array<Modulus, n_points> moduli;
};

template <int dim>
void Equilibrium<dim>::form_rows(std::size_t c, TangentScratch &scratch) const
{
  const CellData<dim> &cell   = model_.cells()[c];
  const Point *const   points = &points_[c * n_points];
  constexpr int        width  = TangentScratch::width;
  for (int q = 0; q < n_points; ++q)
    for (int k = 0; k < dim; ++k)
    {
      double *const row = scratch.gradient[q][k];
      std::fill(row, row + width, 0.);
      for (int l = 0; l < dim; ++l)
      {
        const double        factor = points[q].inverse_gradient[l][k];
        const double *const grad   = &cell.gradient[(q * dim + l) * n_nodes];
        for (int a = 0; a < n_nodes; ++a)
          row[a] += grad[a] * factor;
      }
    }
  // D_i = Pi[J div_i] / theta; div of unknown (k, a) is dN_a/dx_k
  for (int k = 0; k < dim; ++k)
  {
    std::fill(scratch.rate[k][0], scratch.rate[k][0] + n_points * width, 0.);
    for (unsigned m = 0; m < model_.n_dilatations(); ++m)
    {
      const double *const phi = &cell.dilatation_basis[m * n_points];
      double              overlap[width]{};
      for (int q = 0; q < n_points; ++q)
      {
        const double factor = cell.weight[q] * phi[q] * points[q].jacobian;
        for (int a = 0; a < width; ++a)
          overlap[a] += factor * scratch.gradient[q][k][a];
      }
      for (int q = 0; q < n_points; ++q)
      {
        const double factor = phi[q] / points[q].theta;
        for (int a = 0; a < width; ++a)
          scratch.rate[k][q][a] += factor * overlap[a];
      }
    }
  }
}

/// Unknown (i, a) has one row of l only, l[i][k] = dN_a/dx_k, and a rate of dilatation: its
/// block with component j is a product of stacked rows (gradient_k, D_i) with M times rows
/// (gradient_k, D_j).
template <int dim>
void Equilibrium<dim>::add_cell_tangent(std::size_t c, LinearSystem &system) const
{
  const CellData<dim> &cell = model_.cells()[c];
  // A backstress makes M unsymmetric: then all blocks instead of half of them.
  const bool     symmetric = this->symmetric(c);
  TangentScratch scratch;
  constexpr int  width = TangentScratch::width;
  form_rows(c, scratch);
  for (int q = 0; q < n_points; ++q)
    form_modulus(c * n_points + q, cell.weight[q], scratch.moduli[q]);

  const auto index = [](int component, int row)
  { return row == dim ? n_x - 1 : component * dim + row; };
  for (int i = 0; i < dim; ++i)
    for (int j = symmetric ? i : 0; j < dim; ++j)
    {
      for (int q = 0; q < n_points; ++q)
        for (int r = 0; r <= dim; ++r)
        {
          const auto   &m = scratch.moduli[q][index(i, r)];
          double *const row =
              r < dim ? scratch.right_gradient[q][r] : scratch.right_rate[q];
          const double *const rate = scratch.rate[j][q];
          const double        m_d  = m[n_x - 1];
          for (int b = 0; b < width; ++b)
          {
            double sum = m_d * rate[b];
            for (int s = 0; s < dim; ++s)
              sum += m[j * dim + s] * scratch.gradient[q][s][b];
            row[b] = sum;
          }
        }
      std::fill(scratch.block[0], scratch.block[0] + n_nodes * width, 0.);
      add_stacked_product<dim>(scratch.gradient[0][0], scratch.right_gradient[0][0],
                               n_points * dim, scratch.block[0]);
      add_stacked_product<dim>(scratch.rate[i][0], scratch.right_rate[0], n_points,
                               scratch.block[0]);
      for (int a = 0; a < n_nodes; ++a)
        for (int b = 0; b < n_nodes; ++b)
        {
          scratch.matrix[(i * n_nodes + a) * n_local + j * n_nodes + b] =
              scratch.block[a][b];
          if (symmetric && i != j)
            scratch.matrix[(j * n_nodes + b) * n_local + i * n_nodes + a] =
                scratch.block[a][b];
        }
    }
  system.add_cell(static_cast<unsigned>(c), scratch.matrix, n_local);
}

template <int dim>
void Equilibrium<dim>::add_tangent(LinearSystem &system)
{
  const auto add = [&](std::size_t c) { add_cell_tangent(c, system); };
  for (const std::vector<std::size_t> &cells : colours_)
    if (system.adds_in_parallel())
      crew_->each(cells.size(), [&](std::size_t k) { add(cells[k]); });
    else
      std::for_each(cells.begin(), cells.end(), add);
}

template class Equilibrium<2>;
template class Equilibrium<3>;
} // namespace throughbend
