#pragma once
// The jig that the closed and semi-analytic checks of the guided bend speak of: plunger
// 1-1/2 in with its nose half round, shoulders of 3/4 in, opening 2-3/8 in, coupon
// 3/8 x 1-1/2 x 6 in (ASME BPVC IX, figure QW-466.1, column for metals of 20 % elongation
// and more, 2010 edition, read). Only the case, and the angles that come with it.

#include "tests/support/reference_case.h"

#include <cmath>

namespace throughbend
{
/// Friction on the shoulders alone: in the references the nose carries no friction, and in
/// a symmetric bend next to nothing slides there.
inline Case small_jig(double shoulder_friction)
{
  Case c                            = reference_case();
  c.title                           = "3/8 in coupon in the 1-1/2 in jig";
  c.coupon                          = {152.4, 38.1, 9.525, 0};
  c.material                        = {};
  c.material.young                  = 200000;
  c.material.poisson                = 0.3;
  c.material.density                = 7850;
  c.fixture.plunger                 = {38.1, 19.05};
  c.fixture.shoulders.radius        = 19.05;
  c.fixture.shoulders.opening       = 60.325;
  c.fixture.shoulders.depth         = 45;
  c.fixture.shoulders.bottom_radius = 5;
  c.friction                        = {0, shoulder_friction, 0};
  return c;
}

/// Straight legs that touch both circles, from elementary statics (as in Troive 2017,
/// J. Phys. Conf. Ser. 896, 012006).
struct StraightLegs
{
  double nose, shoulder, opening, thickness; ///< [mm]

  explicit StraightLegs(const Case &c)
      : nose(c.fixture.plunger.nose_radius), shoulder(c.fixture.shoulders.radius),
        opening(c.fixture.shoulders.opening), thickness(c.coupon.thickness)
  {
  }
  double half_span() const { return opening / 2 + shoulder; }
  double reach() const { return nose + shoulder + thickness; }

  /// At a leg angle [rad].
  double travel(double beta) const
  {
    return reach() - (reach() - half_span() * std::sin(beta)) / std::cos(beta);
  }
  double arm(double beta) const
  {
    return (half_span() - reach() * std::sin(beta)) / std::cos(beta);
  }
  /// Force over moment [1/mm].
  double force_of_moment(double beta, double friction) const
  {
    return 2 * (std::cos(beta) + friction * std::sin(beta)) /
           (arm(beta) + friction * thickness / 2);
  }
};
} // namespace throughbend
