#include "solver/fem/face_ways.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// Sum of the sizes of the shape functions where it is largest: no point of the face moves
/// more than this times its node that moves most [-].
template <int dim>
double largest_spread(const FaceData<dim> &face)
{
  const std::size_t n       = face.nodes.size();
  double            largest = 0;
  for (std::size_t q = 0; q < face.weight.size(); ++q)
  {
    double sum = 0;
    for (std::size_t i = 0; i < n; ++i)
      sum += std::abs(face.shape[q * n + i]);
    largest = std::max(largest, sum);
  }
  return largest;
}
} // namespace

template <int dim>
FaceWays<dim>::FaceWays(const CouponModel<dim> &model)
    : model_(model), spread_(model.faces().size()), way_(model.faces().size())
{
  for (std::size_t f = 0; f < model.faces().size(); ++f)
    spread_[f] = largest_spread(model.faces()[f]);
}

template <int dim>
bool FaceWays<dim>::add(const Vector &u, const double travel)
{
  const bool known = at_.size() == u.size();
  if (known)
  {
    ram_way_ += std::abs(travel - travel_);
    for (std::size_t f = 0; f < model_.faces().size(); ++f)
    {
      const FaceData<dim> &face    = model_.faces()[f];
      const CellData<dim> &cell    = model_.cells()[face.cell];
      const std::size_t    n       = face.nodes.size();
      double               largest = 0; // squared; outlines do not see the way across
      for (std::size_t i = 0; i < n; ++i)
      {
        double square = 0;
        for (int c = 0; c < 2; ++c)
        {
          const auto   dof = cell.dofs[face.dofs[c * n + i]];
          const double way = u[dof] - at_[dof];
          square += way * way;
        }
        largest = std::max(largest, square);
      }
      way_[f] += spread_[f] * std::sqrt(largest);
    }
  }
  at_     = u;
  travel_ = travel;
  return known;
}

template class FaceWays<2>;
template class FaceWays<3>;
} // namespace throughbend
