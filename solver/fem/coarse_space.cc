#include "solver/fem/coarse_space.h"

#include <algorithm>
#include <utility>

namespace throughbend
{
namespace
{
/// Where the nodes of a cell lie in the unit cell.
template <int dim>
const std::vector<dealii::Point<dim>> &unit_nodes(const CouponModel<dim> &model)
{
  return model.dof_handler().get_fe().base_element(0).get_unit_support_points();
}

/// Of the linear shape function of a corner at a place of the unit cell [-].
template <int dim>
double linear_shape(const dealii::Point<dim> &corner, const dealii::Point<dim> &place)
{
  double value = 1;
  for (unsigned k = 0; k < dim; ++k)
    value *= corner[k] > 0.5 ? place[k] : 1 - place[k];
  return value;
}

template <int dim>
bool is_corner(const dealii::Point<dim> &node)
{
  for (unsigned k = 0; k < dim; ++k)
    if (node[k] > 0.25 && node[k] < 0.75)
      return false;
  return true;
}

/// Of each unknown among those at the corners of all ranks' cells that are solved for;
/// -1: it is none of them.
template <int dim>
std::vector<int> corner_numbers(const CouponModel<dim> &model)
{
  const auto                                  &element = model.dof_handler().get_fe();
  const std::vector<dealii::Point<dim>>       &nodes   = unit_nodes(model);
  std::vector<dealii::types::global_dof_index> unknowns(element.n_dofs_per_cell());
  std::vector<int>                             number(model.n_dofs(), -1);
  for (const auto &cell : model.dof_handler().active_cell_iterators())
  {
    cell->get_dof_indices(unknowns);
    for (unsigned i = 0; i < unknowns.size(); ++i)
      if (is_corner(nodes[element.system_to_component_index(i).second]) &&
          !model.held()[unknowns[i]])
        number[unknowns[i]] = 0;
  }
  int next = 0;
  for (int &each : number)
    if (each == 0)
      each = next++;
  return number;
}
} // namespace

template <int dim>
CoarseSpace coarse_space(const CouponModel<dim> &model)
{
  const std::vector<dealii::Point<dim>> &nodes = unit_nodes(model);
  const unsigned                         n     = model.n_nodes_per_cell();

  CoarseSpace space;
  space.per_node = dim;
  space.number   = corner_numbers(model);
  space.size     = *std::max_element(space.number.begin(), space.number.end()) + 1;
  using Share    = std::pair<int, double>; // of a corner, and its weight
  std::vector<std::vector<Share>> shares(model.n_dofs());
  for (const auto &cell : model.cells())
    for (unsigned component = 0; component < dim; ++component)
      for (unsigned a = 0; a < n; ++a)
      {
        const unsigned unknown = cell.dofs[component * n + a];
        if (model.held()[unknown] || !shares[unknown].empty())
          continue;
        for (unsigned b = 0; b < n; ++b)
        {
          const unsigned corner = cell.dofs[component * n + b];
          const double weight = is_corner(nodes[b]) ? linear_shape(nodes[b], nodes[a]) : 0.;
          if (weight > 0 && space.number[corner] >= 0)
            shares[unknown].emplace_back(space.number[corner], weight);
        }
      }

  space.starts.push_back(0);
  for (const std::vector<Share> &each : shares)
  {
    for (const auto &[corner, weight] : each)
    {
      space.corner.push_back(corner);
      space.weight.push_back(weight);
    }
    space.starts.push_back(static_cast<int>(space.corner.size()));
  }
  return space;
}

template CoarseSpace coarse_space(const CouponModel<2> &);
template CoarseSpace coarse_space(const CouponModel<3> &);
} // namespace throughbend
