#include "solver/pass/surface_strain.h"

#include <deal.II/base/quadrature_lib.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <vector>

namespace throughbend
{
namespace
{
constexpr std::size_t n_row = 3; // points of a cell in each direction
using Shares                = std::array<double, n_row>;

/// Of the points of a row in the value at `at`, from 0 to 1 along it: Lagrange's parabola.
Shares shares_at(double at)
{
  const dealii::QGauss<1> gauss(n_row);
  Shares                  shares{};
  for (unsigned i = 0; i < n_row; ++i)
  {
    shares[i] = 1;
    for (unsigned j = 0; j < n_row; ++j)
      if (j != i)
        shares[i] *= (at - gauss.point(j)[0]) / (gauss.point(i)[0] - gauss.point(j)[0]);
  }
  return shares;
}

/// A point of its own.
Shares only(std::size_t i)
{
  Shares shares{};
  shares[i] = 1;
  return shares;
}
} // namespace

template <int dim>
double surface_plastic_strain(const CouponModel<dim> &model,
                              const Equilibrium<dim> &equilibrium, CouponFace name,
                              double depth)
{
  if (model.n_points_per_cell() != (dim == 2 ? n_row * n_row : n_row * n_row * n_row))
    throw std::logic_error("the surface strain is laid out for three points a direction");
  const dealii::QGauss<1> gauss(n_row);
  const Shares            mean    = {gauss.weight(0), gauss.weight(1), gauss.weight(2)};
  double                  largest = 0;
  for (const FaceData<dim> &face : model.faces())
  {
    if (face.name != name)
      continue;
    const auto  &cell   = model.cells()[face.cell].cell;
    const double height = cell->vertex(0).distance(cell->vertex(2));
    const double in     = depth / height;
    const Shares up     = shares_at(face.name == CouponFace::convex ? in : 1 - in);
    // Across the width: at the points, and at the free edge.
    std::vector<Shares> across = {only(0)};
    if constexpr (dim == 3)
    {
      across         = {only(0), only(1), only(2)};
      const auto end = cell->face(2 * dim - 1);
      if (end->at_boundary() &&
          end->boundary_id() == static_cast<dealii::types::boundary_id>(CouponFace::side))
        across.push_back(shares_at(1));
    }
    for (const Shares &out : across)
    {
      double value = 0;
      for (std::size_t i = 0; i < n_row; ++i)
        for (std::size_t j = 0; j < n_row; ++j)
          for (std::size_t k = 0; k < (dim == 3 ? n_row : 1); ++k)
            value += mean[i] * up[j] * out[k] *
                     equilibrium.history()
                         .latest(equilibrium.point(face.cell, i + n_row * (j + n_row * k)))
                         .equivalent_plastic_strain;
      largest = std::max(largest, value);
    }
  }
  return model.max_over_ranks(largest);
}

template double surface_plastic_strain(const CouponModel<2> &, const Equilibrium<2> &,
                                       CouponFace, double);
template double surface_plastic_strain(const CouponModel<3> &, const Equilibrium<3> &,
                                       CouponFace, double);
} // namespace throughbend
