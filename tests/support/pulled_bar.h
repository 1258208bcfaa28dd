#pragma once
// A bar without tools that is pulled and pushed along x, down to a single element: its
// eighth, in the plane its quarter, so that three (two) of its sides are planes of
// symmetry.

#include "tests/support/body.h"

#include <deal.II/grid/grid_generator.h>

#include <cmath>
#include <vector>

namespace throughbend
{
/// Equal cells in a box from the origin to `size` [mm].
template <int dim>
dealii::Triangulation<dim> block(const std::vector<unsigned> &cells,
                                 const dealii::Point<dim>    &size)
{
  dealii::Triangulation<dim> shape;
  dealii::GridGenerator::subdivided_hyper_rectangle(shape, cells, dealii::Point<dim>(),
                                                    size);
  return shape;
}

template <int dim>
class PulledBar : public Body<dim>
{
public:
  PulledBar(const dealii::Point<dim> &size, const std::vector<unsigned> &cells,
            const ZoneMaterial &metal)
      : Body<dim>(
            block<dim>(cells, size),
            [length = size[0]](const auto &node, unsigned component)
            { return node[component] < tiny || (component == 0 && is_end(node, length)); },
            metal,
            [length = size[0]](const auto &node, unsigned component, double load)
            { return component == 0 && is_end(node, length) ? load : 0.; }),
        length_(size[0])
  {
  }

  /// To a log strain [-], seen from the bar as it was made, in equal steps of its end.
  void strain(double strain, int steps) { this->go(length_ * std::expm1(strain), steps); }

  /// On the end, of the eighth or quarter [N], in the plane [N/mm].
  double end_force() const
  {
    double force = 0;
    for (unsigned i = 0; i < this->model().n_dofs(); ++i)
      if (this->component(i) == 0 && is_end(this->model().nodes()[i], length_))
        force += this->forces()[i];
    return force;
  }

  double plastic_strain() const ///< of the first point [-]
  {
    return this->equilibrium().history().accepted(0).equivalent_plastic_strain;
  }

private:
  static constexpr double tiny = 1e-9; ///< [mm]
  static bool             is_end(const dealii::Point<dim> &node, double length)
  {
    return node[0] > length - tiny;
  }
  double length_; ///< [mm]
};
} // namespace throughbend
