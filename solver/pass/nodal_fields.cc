#include "solver/pass/nodal_fields.h"

#include <deal.II/base/quadrature_lib.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace throughbend
{
namespace
{
void sum_over_ranks(std::vector<double> &values, MPI_Comm communicator)
{
  dealii::Utilities::MPI::sum(dealii::ArrayView<const double>(values.data(), values.size()),
                              communicator,
                              dealii::ArrayView<double>(values.data(), values.size()));
}

/// Number of a unit support point of the quadratic element, x fastest.
template <int dim>
unsigned lexicographic_number(const dealii::Point<dim> &unit)
{
  unsigned number = 0, stride = 1;
  for (int d = 0; d < dim; ++d, stride *= 3)
    number += stride * static_cast<unsigned>(std::lround(2 * unit[d]));
  return number;
}

/// Least-squares linear function through the values at Gauss points, evaluated at the nodes
/// -1, 0, 1 of each direction: [node * points + q]. Gauss weights make 1 and xi orthogonal.
template <int dim>
std::vector<double> linear_fit(std::size_t n_points)
{
  const auto n_1d =
      static_cast<unsigned>(std::lround(std::pow(static_cast<double>(n_points), 1. / dim)));
  const dealii::QGauss<1> gauss(n_1d);
  std::vector<double>     fit(NodalFields<dim>::n_cell_nodes * n_points);
  for (std::size_t a = 0; a < NodalFields<dim>::n_cell_nodes; ++a)
    for (std::size_t q = 0; q < n_points; ++q)
    {
      double      value = 1;
      std::size_t node = a, point = q;
      for (int d = 0; d < dim; ++d, node /= 3, point /= n_1d)
      {
        const auto   i     = static_cast<unsigned>(point % n_1d);
        const double xi    = 2 * gauss.point(i)[0] - 1;
        const double there = static_cast<double>(node % 3) - 1;
        value *= 2 * gauss.weight(i) * (0.5 + 1.5 * xi * there);
      }
      fit[a * n_points + q] = value;
    }
  return fit;
}

constexpr std::size_t at(NodalQuantity quantity)
{
  return static_cast<std::size_t>(quantity);
}

/// Unit coordinate along direction d of a node, by its number with x fastest.
constexpr double unit_place(std::size_t node, int d)
{
  for (int i = 0; i < d; ++i)
    node /= 3;
  return static_cast<double>(node % 3) / 2;
}
} // namespace

template <int dim>
NodalFields<dim>::NodalFields(const CouponModel<dim> &model)
    : fit_(linear_fit<dim>(model.n_points_per_cell()))
{
  const auto &element = model.dof_handler().get_fe();
  lexicographic_.resize(n_cell_nodes);
  for (unsigned i = 0; i < element.n_dofs_per_cell(); ++i)
    if (const auto [component, node] = element.system_to_component_index(i); component == 0)
      lexicographic_[node] = lexicographic_number(element.unit_support_point(i));

  std::map<unsigned, int> lips;
  for (const FlawLips &flaw : model.flaws())
    for (const LipPair &pair : flaw.pairs)
      if (pair.left.x != pair.right.x)
      {
        lips[pair.left.x]  = 1;
        lips[pair.right.x] = 2;
      }
      else if (flaw.mirrored && !model.held()[pair.right.x])
        lips[pair.right.x] = 2;

  std::map<std::pair<unsigned, int>, std::size_t>                               numbers;
  std::map<typename dealii::DoFHandler<dim>::active_cell_iterator, std::size_t> places;
  std::vector<dealii::types::global_dof_index> dofs(element.n_dofs_per_cell());
  for (const auto &cell : model.dof_handler().active_cell_iterators())
  {
    cell->get_dof_indices(dofs);
    Cell out;
    out.zone   = static_cast<int>(cell->material_id());
    out.centre = cell->center();
    for (unsigned i = 0; i < dofs.size(); ++i)
    {
      const auto [component, node]              = element.system_to_component_index(i);
      out.dofs[lexicographic_[node]][component] = static_cast<unsigned>(dofs[i]);
    }
    for (std::size_t a = 0; a < n_cell_nodes; ++a)
    {
      out.places[a] =
          numbers.try_emplace({out.dofs[a][0], out.zone}, numbers.size()).first->second;
      const auto lip = lips.find(out.dofs[a][0]);
      out.lips[a]    = lip == lips.end() ? 0 : lip->second;
    }
    places[cell] = cells_.size();
    cells_.push_back(out);
  }
  n_places_ = numbers.size();
  for (const CellData<dim> &cell : model.cells())
    owned_.push_back(places.at(cell.cell));

  shares_.assign(n_places_, 0.);
  for (const Cell &cell : cells_)
    for (const std::size_t place : cell.places)
      shares_[place] += 1;
  for (double &share : shares_)
    share = 1 / share;

  // Once with pressure 1 everywhere gives the areas to divide by.
  spread_.resize(model.faces().size());
  face_area_.assign(n_places_, 0.);
  for (std::size_t f = 0; f < model.faces().size(); ++f)
  {
    const FaceData<dim> &face = model.faces()[f];
    const Cell          &cell = cells_[owned_[face.cell]];
    const std::size_t    n    = face.nodes.size();
    for (std::size_t q = 0; q < face.position.size(); ++q)
    {
      // Shape functions give the point's unit coordinates whatever shape the cell has.
      std::array<double, dim> unit{};
      for (int d = 0; d < dim; ++d)
        for (std::size_t i = 0; i < n; ++i)
          unit[d] += face.shape[q * n + i] * unit_place(lexicographic_[face.nodes[i]], d);
      for (const unsigned node : face.nodes)
      {
        const unsigned a     = lexicographic_[node];
        double         share = face.weight[q]; // times the hat on half of a cell
        for (int d = 0; d < dim; ++d)
          share *= std::max(0., 1 - 2 * std::abs(unit[d] - unit_place(a, d)));
        spread_[f].push_back({cell.places[a], share});
        face_area_[cell.places[a]] += share;
      }
    }
  }
  sum_over_ranks(face_area_, model.communicator());
}

template <int dim>
typename NodalFields<dim>::CellValues NodalFields<dim>::at_point(const PassView<dim> &view,
                                                                 std::size_t          index,
                                                                 std::size_t q) const
{
  const Equilibrium<dim> &equilibrium = view.equations.equilibrium();
  const CellData<dim>    &cell        = view.model.cells()[index];
  const std::size_t       point       = equilibrium.point(index, q);
  const std::size_t       n_nodes     = view.model.n_nodes_per_cell();

  std::array<double, dim> along{}; // F e_x
  along[0] = 1;
  for (std::size_t c = 0; c < dim; ++c)
    for (std::size_t a = 0; a < n_nodes; ++a)
      along[c] += view.u[cell.dofs[c * n_nodes + a]] *
                  cell.gradient[q * dim * n_nodes + a]; // dN_a/dX_0
  double stretch = 0;
  for (const double component : along)
    stretch += component * component;

  const Matrix3 &tau  = equilibrium.kirchhoff(point);
  const double   J    = equilibrium.dilatation(point);
  const auto     s    = [&](int i, int j) { return tau[i][j] / J; };
  const double   mean = (s(0, 0) + s(1, 1) + s(2, 2)) / 3;
  double         norm = 2 * (s(0, 1) * s(0, 1) + s(0, 2) * s(0, 2) + s(1, 2) * s(1, 2));
  for (int i = 0; i < 3; ++i)
    norm += (s(i, i) - mean) * (s(i, i) - mean);

  CellValues values{};
  values[at(NodalQuantity::stress_xx)]        = s(0, 0);
  values[at(NodalQuantity::stress_yy)]        = s(1, 1);
  values[at(NodalQuantity::stress_zz)]        = s(2, 2);
  values[at(NodalQuantity::stress_xy)]        = s(0, 1);
  values[at(NodalQuantity::stress_xz)]        = s(0, 2);
  values[at(NodalQuantity::stress_yz)]        = s(1, 2);
  values[at(NodalQuantity::von_mises_stress)] = std::sqrt(1.5 * norm);
  values[at(NodalQuantity::plastic_strain)] =
      equilibrium.history().latest(point).equivalent_plastic_strain;
  values[at(NodalQuantity::axial_strain)] = std::log(stretch) / 2;
  return values;
}

template <int dim>
void NodalFields<dim>::add_cells(const PassView<dim> &view,
                                 std::vector<double> &values) const
{
  const std::size_t n_points = view.model.n_points_per_cell();
  for (std::size_t index = 0; index < owned_.size(); ++index)
  {
    const Cell &cell = cells_[owned_[index]];
    for (std::size_t q = 0; q < n_points; ++q)
    {
      const CellValues here = at_point(view, index, q);
      for (std::size_t a = 0; a < n_cell_nodes; ++a)
      {
        const double  share = shares_[cell.places[a]] * fit_[a * n_points + q];
        double *const out   = &values[cell.places[a] * n_nodal_quantities];
        for (std::size_t k = 0; k < n_nodal_quantities; ++k)
          out[k] += share * here[k];
      }
    }
  }
}

template <int dim>
void NodalFields<dim>::add_pressure(const PassView<dim> &view,
                                    std::vector<double> &values) const
{
  const ContactAssembly<dim> &contact  = view.equations.contact();
  const std::size_t           n_pieces = contact.pieces().size();
  for (std::size_t f = 0; f < spread_.size(); ++f)
  {
    const FaceData<dim> &face    = view.model.faces()[f];
    const std::size_t    n_nodes = face.nodes.size();
    for (std::size_t q = 0; q < face.position.size(); ++q)
    {
      double pressure = 0;
      for (std::size_t piece = 0; piece < n_pieces; ++piece)
        pressure += contact.latest(f, q, piece).pressure;
      if (pressure > 0)
        for (std::size_t a = 0; a < n_nodes; ++a)
        {
          const auto [place, share] = spread_[f][q * n_nodes + a];
          if (share > 0)
            values[place * n_nodal_quantities + at(NodalQuantity::contact_pressure)] +=
                pressure * share / face_area_[place];
        }
    }
  }
}

template <int dim>
NodalState NodalFields<dim>::at_nodes(const PassView<dim> &view, double travel,
                                      StepKind kind) const
{
  NodalState state;
  state.travel = travel;
  state.kind   = kind;
  state.u      = view.u;
  state.values.assign(n_places_ * n_nodal_quantities, 0.);
  add_cells(view, state.values);
  if (kind != StepKind::release)
    add_pressure(view, state.values);
  sum_over_ranks(state.values, view.model.communicator());
  // A linear fit can undershoot beside a plastic front; below 0 neither makes sense.
  for (std::size_t place = 0; place < n_places_; ++place)
    for (const NodalQuantity quantity :
         {NodalQuantity::von_mises_stress, NodalQuantity::plastic_strain})
    {
      double &value = state.values[place * n_nodal_quantities + at(quantity)];
      value         = std::max(value, 0.);
    }
  return state;
}

template class NodalFields<2>;
template class NodalFields<3>;
} // namespace throughbend
