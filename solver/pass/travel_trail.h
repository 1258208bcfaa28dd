#pragma once
// The last few accepted shapes along the travel, and the guess they give for the next.
// Without such a guess every step would start from tools driven deep into the coupon.

#include "solver/fem/coupon_model.h"

#include <deque>

namespace throughbend
{
class TravelTrail
{
  static constexpr std::size_t longest = 3; ///< points that are kept

public:
  void add(double travel, const Vector &u);
  void clear() { points_.clear(); } ///< after a jump the past says nothing
  bool can_guess() const { return points_.size() >= 2; }

  /// Polynomial through the last `shapes` points (or through fewer, where there are no
  /// more), taken at `travel` [mm].
  Vector guess(double travel, std::size_t shapes = longest) const;

  /// With every shape put through `order`, which changes the order of its unknowns.
  template <class Order>
  TravelTrail reordered(const Order &order) const
  {
    TravelTrail trail(*this);
    for (Point &point : trail.points_)
      point.u = order(point.u);
    return trail;
  }

  /// For checkpoints; see solver/pass/state_archive.h.
  template <class Archive>
  friend void transfer(Archive &a, TravelTrail &value)
  {
    a(value.points_);
  }
  /// Whether every shape has so many unknowns.
  bool fits(unsigned n_dofs) const;

private:
  struct Point
  {
    double travel = 0;
    Vector u;

    template <class Archive>
    friend void transfer(Archive &a, Point &value)
    {
      a(value.travel, value.u);
    }
  };
  std::deque<Point> points_; ///< oldest first, at most `longest`
};
} // namespace throughbend
