#include "solver/fem/coarse_space.h"

#include <cassert>
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
} // namespace

template <int dim>
CoarseSpace coarse_space(const CouponModel<dim> &model)
{
  assert(model.alone() && "the cells of other ranks are missing");
  const std::vector<dealii::Point<dim>> &nodes = unit_nodes(model);
  const std::vector<unsigned>           &order = model.common_number();
  const unsigned                         n     = model.n_nodes_per_cell();

  using Share = std::pair<unsigned, double>; // of a corner, and its weight
  std::vector<std::vector<Share>> shares(model.n_dofs());
  std::vector<int>                number(model.n_dofs(), -1);
  for (const auto &cell : model.cells())
    for (unsigned component = 0; component < dim; ++component)
      for (unsigned a = 0; a < n; ++a)
      {
        const unsigned own = cell.dofs[component * n + a], unknown = order[own];
        if (model.held()[own] || !shares[unknown].empty())
          continue;
        if (is_corner(nodes[a]))
          number[unknown] = 0;
        for (unsigned b = 0; b < n; ++b)
        {
          const unsigned corner = cell.dofs[component * n + b];
          const double weight = is_corner(nodes[b]) ? linear_shape(nodes[b], nodes[a]) : 0.;
          if (weight > 0 && !model.held()[corner])
            shares[unknown].emplace_back(order[corner], weight);
        }
      }

  CoarseSpace space;
  for (int &each : number)
    if (each == 0)
      each = space.size++;
  space.starts.push_back(0);
  for (const std::vector<Share> &each : shares)
  {
    for (const auto &[corner, weight] : each)
    {
      space.corner.push_back(number[corner]);
      space.weight.push_back(weight);
    }
    space.starts.push_back(static_cast<int>(space.corner.size()));
  }
  return space;
}

template CoarseSpace coarse_space(const CouponModel<2> &);
template CoarseSpace coarse_space(const CouponModel<3> &);
} // namespace throughbend
