#include "solver/screening/length_needed.h"

#include "meshes/setup/fixture_profiles.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
constexpr double right_angle = 3.14159265358979323846 / 2;
constexpr double steps       = 900; // a tenth of a degree each

double middle_radius(const Case &c)
{
  return c.fixture.plunger.nose_radius + c.coupon.thickness / 2;
}

/// Half of the flat part of a nose that is no half round [mm].
double nose_flat(const Case &c)
{
  return c.fixture.plunger.width / 2 - c.fixture.plunger.nose_radius;
}

double shorter_side(const Case &c)
{
  return c.coupon.length / 2 - std::abs(c.coupon.offset);
}

double longer_side(const Case &c)
{
  return c.coupon.length / 2 + std::abs(c.coupon.offset);
}

/// Straight part of the leg that a side makes [mm].
double leg_of(const Case &c, const double side)
{
  return side - nose_flat(c) - middle_radius(c) * right_angle;
}

double travel_of_end(const Case &c, const double side)
{
  return c.coupon.thickness + c.fixture.plunger.nose_radius + leg_of(c, side) -
         last_tangent_level(c.fixture.shoulders);
}
} // namespace

double half_length_needed(const Case &c, const double angle)
{
  const BendGeometry g       = bend_geometry(c);
  double             longest = 0;
  for (double i = 0; i <= steps; ++i)
    longest = std::max(longest, straight_leg(g, angle * i / steps).length);
  return nose_flat(c) + longest;
}

double support_lost_angle(const Case &c)
{
  const BendGeometry g = bend_geometry(c);
  for (double i = 0; i < steps; ++i)
  {
    const double beta = right_angle * i / steps;
    if (nose_flat(c) + straight_leg(g, beta).length > shorter_side(c))
      return beta;
  }
  return right_angle;
}

double shortest_length(const Case &c)
{
  return c.fixture.shoulders.opening + 2 * c.fixture.shoulders.radius;
}

double side_needed(const Case &c, const double angle)
{
  return std::max(shortest_length(c) / 2, half_length_needed(c, angle));
}

double straight_leg_length(const Case &c)
{
  return leg_of(c, longer_side(c));
}

double travel_to_pass(const Case &c)
{
  return travel_of_end(c, longer_side(c));
}

double travel_of_clinging(const Case &c)
{
  const Shoulders &s     = c.fixture.shoulders;
  const bool       round = s.kind == ShoulderKind::rollers;
  const double     mu =
      s.roll() ? 0. : std::max(c.friction.shoulders, c.friction.left_shoulder());
  return (round ? s.radius : s.bottom_radius) * std::sin(std::atan(mu));
}

double travel_needed(const Case &c)
{
  return travel_to_pass(c) + travel_of_clinging(c);
}

double travel_of_first_end(const Case &c)
{
  return travel_of_end(c, shorter_side(c));
}

FrameReach frame_reach(const Case &c)
{
  const Frame &frame = c.fixture.frame;
  if (!frame.present() || longer_side(c) <= frame.distance)
    return FrameReach::clear;
  const BendGeometry g = bend_geometry(c);
  const double       t = c.coupon.thickness, flat = nose_flat(c);
  for (double i = 1; i < steps; ++i)
  {
    // The leg starts where it leaves the nose and is straight from there to its end.
    const double beta = right_angle * i / steps;
    const double sine = std::sin(beta), cosine = std::cos(beta);
    const double along = longer_side(c) - flat - middle_radius(c) * beta;
    const double tip   = flat + middle_radius(c) * sine + along * cosine;
    if (tip <= frame.distance)
      return FrameReach::slips;
    // The leg's upper face where the plate stands, from its contact with the shoulder.
    const double out = frame.distance - (flat + g.half_span - g.shoulder_radius * sine);
    const double upper =
        -g.shoulder_radius * (1 - cosine) + out * std::tan(beta) + t / cosine;
    if (upper > t + frame.clearance_above)
      return FrameReach::catches;
  }
  return FrameReach::catches;
}

double frame_length(const Case &c)
{
  return 2 * (c.fixture.frame.distance - std::abs(c.coupon.offset));
}

double offset_for_support(const Case &c, const double angle)
{
  return c.coupon.length / 2 - side_needed(c, angle);
}

double offset_for_frame(const Case &c)
{
  return c.fixture.frame.present() ? c.fixture.frame.distance - c.coupon.length / 2
                                   : std::numeric_limits<double>::infinity();
}
} // namespace throughbend
