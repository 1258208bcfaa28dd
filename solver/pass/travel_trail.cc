#include "solver/pass/travel_trail.h"

#include <algorithm>
#include <cassert>

namespace throughbend
{
void TravelTrail::add(double travel, const Vector &u)
{
  if (!points_.empty() && travel <= points_.back().travel)
    points_.clear();
  points_.push_back({travel, u});
  if (points_.size() > longest)
    points_.pop_front();
}

bool TravelTrail::fits(unsigned n_dofs) const
{
  return points_.size() <= longest &&
         std::all_of(points_.begin(), points_.end(),
                     [&](const Point &point) { return point.u.size() == n_dofs; });
}

Vector TravelTrail::guess(double travel, const std::size_t shapes) const
{
  assert(can_guess() && shapes >= 2 && "one shape alone says nothing of the next");
  const std::size_t n = points_.size(), first = n - std::min(n, shapes);
  Vector            guess(points_.back().u.size());
  for (std::size_t i = first; i < n; ++i)
  {
    double share = 1; // Lagrange
    for (std::size_t j = first; j < n; ++j)
      if (j != i)
        share *= (travel - points_[j].travel) / (points_[i].travel - points_[j].travel);
    guess.add(share, points_[i].u);
  }
  return guess;
}
} // namespace throughbend
