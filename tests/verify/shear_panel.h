#pragma once
// The trapezoidal panel in plane strain, clamped at its left edge, with a dead shear load
// on its right edge. No reference values here.

#include "tests/support/body.h"

#include <deal.II/grid/grid_generator.h>
#include <deal.II/grid/grid_tools.h>

#include <cmath>

namespace throughbend
{
template <typename Forces = Equilibrium<2>>
class ShearPanel
{
public:
  /// `along` cells from left to right, `up` cells from bottom to top.
  ShearPanel(int along, int up, const ZoneMaterial &metal)
      : along_(along), up_(up),
        body_(
            shape(along, up),
            [](const dealii::Point<2> &node, unsigned) { return node[0] < 1e-9; }, metal,
            [](const auto &...) { return 0.; })
  {
  }

  /// Hangs `traction` [MPa] on the right edge, upwards, in equal steps.
  void pull(double traction, int steps)
  {
    Vector load(body_.model().n_dofs());
    for (const auto &face : body_.model().faces())
      if (face.position[0][0] > 48 - 1e-9 && face.position.back()[0] > 48 - 1e-9)
      {
        const std::size_t nodes = face.nodes.size();
        for (std::size_t q = 0; q < face.weight.size(); ++q)
          for (std::size_t i = 0; i < nodes; ++i)
            load[body_.model().cells()[face.cell].dofs[face.dofs[nodes + i]]] +=
                traction * face.weight[q] * face.shape[q * nodes + i];
      }
    body_.hang(load);
    body_.go(1, steps);
  }

  double tip() const ///< upward displacement of the upper right corner [mm]
  {
    return body_.displacement()[body_.dof_at({48, 60}, 1)];
  }
  int                    along() const { return along_; }
  int                    up() const { return up_; }
  const Body<2, Forces> &body() const { return body_; }

private:
  static dealii::Triangulation<2> shape(int along, int up)
  {
    dealii::Triangulation<2> mesh;
    dealii::GridGenerator::subdivided_hyper_rectangle(
        mesh, {static_cast<unsigned>(along), static_cast<unsigned>(up)},
        dealii::Point<2>(0, 0), dealii::Point<2>(1, 1));
    dealii::GridTools::transform(
        [](const dealii::Point<2> &p)
        { return dealii::Point<2>(48 * p[0], 44 * p[0] + p[1] * (44 - 28 * p[0])); },
        mesh);
    return mesh;
  }

  int             along_, up_;
  Body<2, Forces> body_;
};
} // namespace throughbend
