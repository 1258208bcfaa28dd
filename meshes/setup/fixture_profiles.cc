#include "meshes/setup/fixture_profiles.h"

#include "meshes/coupon/coupon_shape.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace throughbend
{
namespace
{
RigidProfile mirrored_if_left(std::vector<Corner> corners, Side side)
{
  if (side == Side::left)
  {
    for (Corner &c : corners)
      c.point.x = -c.point.x;
    std::reverse(corners.begin(), corners.end()); // keep it counter-clockwise
  }
  return RigidProfile::rounded(corners);
}
} // namespace

RigidProfile plunger_profile(const Plunger &plunger, double touch, double reach)
{
  const double half = plunger.width / 2, top = touch + plunger.nose_radius + reach;
  return RigidProfile::rounded({{{-half, top}, 0},
                                {{-half, touch}, plunger.nose_radius},
                                {{half, touch}, plunger.nose_radius},
                                {{half, top}, 0}});
}

RigidProfile shoulder_profile(const Fixture &fixture, Side side)
{
  const Shoulders &s    = fixture.shoulders;
  const double     half = s.opening / 2;
  if (s.kind == ShoulderKind::rollers)
  {
    const double x = half + s.radius;
    return RigidProfile::disc({side == Side::right ? x : -x, -s.radius}, s.radius);
  }
  double outer = half + 1.5 * s.radius;
  if (fixture.frame.present())
    outer = std::min(outer, fixture.frame.distance);
  // Small arc, large rounding below: arc length starts in the middle of the underside,
  // which must be flat there.
  outer                     = std::max(outer, half + 2 * s.bottom_radius);
  const double outer_radius = 0.4 * (outer - half - s.radius);
  return mirrored_if_left({{{outer, -s.depth}, 0},
                           {{outer, 0}, outer_radius},
                           {{half, 0}, s.radius},
                           {{half, -s.depth}, s.bottom_radius}},
                          side);
}

std::vector<RigidProfile> frame_profiles(const Frame &frame, double coupon_thickness,
                                         Side side)
{
  // Plates end farther away than any coupon reaches [mm].
  const double tall = std::max(400., 40 * coupon_thickness);
  const double in = frame.distance, out = in + frame.plate_thickness;
  const double above = coupon_thickness + frame.clearance_above;
  const double below = -frame.clearance_below;
  const double r     = frame.edge_radius;
  return {mirrored_if_left({{{in, above + tall}, 0},
                            {{in, above}, r},
                            {{out, above}, r},
                            {{out, above + tall}, 0}},
                           side),
          mirrored_if_left({{{out, below - tall}, 0},
                            {{out, below}, r},
                            {{in, below}, r},
                            {{in, below - tall}, 0}},
                           side)};
}

ToolShape plunger_shape(const Plunger &plunger, double touch, double reach)
{
  const double r = plunger.nose_radius, half = plunger.width / 2;
  ToolShape    shape{{plunger_profile(plunger, touch, reach)}, {}};
  shape.gauge.round        = r;
  shape.gauge.round_centre = {half - r, touch + r};
  shape.gauge.flank        = half;
  return shape;
}

ToolShape shoulder_shape(const Fixture &fixture, Side side)
{
  const Shoulders &s = fixture.shoulders;
  ToolShape        shape{{shoulder_profile(fixture, side)}, {}};
  shape.gauge.round         = s.radius;
  shape.gauge.round_centre  = {s.opening / 2 + s.radius, -s.radius};
  shape.gauge.flank         = s.opening / 2;
  shape.gauge.holds_down_to = last_tangent_level(s);
  return shape;
}

ToolShape frame_shape(const Frame &frame, double coupon_thickness, Side side)
{
  ToolShape shape{frame_profiles(frame, coupon_thickness, side), {}};
  shape.gauge.round = frame.edge_radius;
  shape.gauge.flank = frame.distance;
  return shape;
}

double resting_height(const Case &c)
{
  const double half = c.coupon.length / 2, radius = c.fixture.shoulders.radius;
  const double centre = c.fixture.shoulders.opening / 2 + radius;
  const auto   height = [&](double reach)
  {
    const double short_by = centre - reach;
    if (short_by <= 0)
      return 0.;
    return short_by < radius ? std::sqrt(radius * radius - short_by * short_by) - radius
                             : -radius;
  };
  return std::max(height(half + c.coupon.offset), height(half - c.coupon.offset));
}

double contact_band(const Case &c)
{
  return c.solver.penetration_tolerance * c.coupon.thickness;
}

namespace
{
/// Largest value over what the coupon has of a stretch [mm]; -1e300 where it has nothing.
double largest(const Case &c, double from, double to,
               const std::function<double(double)> &value)
{
  constexpr int samples = 2000; // a tool's outline is smooth on a thousandth of its width
  from                  = std::max(from, c.coupon.offset - c.coupon.length / 2);
  to                    = std::min(to, c.coupon.offset + c.coupon.length / 2);
  double highest        = -1e300;
  for (int i = 0; i <= samples && from <= to; ++i)
    highest = std::max(highest, value(from + (to - from) * i / samples));
  return highest;
}
} // namespace

double coupon_level(const Case &c)
{
  const double      flat = resting_height(c) + contact_band(c);
  const CouponShape shape(c, model_extent(c));
  if (shape.straight())
    return flat;
  // A bead on the convex face lifts the coupon where it would rest on a shoulder's round.
  const Shoulders &s    = c.fixture.shoulders;
  const double     half = s.opening / 2;
  const auto       over = [&](double x)
  {
    if (shape.bottom(x) == 0)
      return -1e300;
    // From the top of the round.
    const double in  = std::min(half + s.radius - std::abs(x), s.radius);
    const double top = in > 0 ? std::sqrt(s.radius * s.radius - in * in) - s.radius : 0.;
    return top - shape.bottom(x);
  };
  const double far  = std::abs(c.coupon.offset) + c.coupon.length;
  const double lift = std::max(
      {largest(c, -half - s.radius, -half, over), largest(c, half, half + s.radius, over),
       largest(c, -far, -half - s.radius, over), largest(c, half + s.radius, far, over)});
  return std::max(flat, lift + contact_band(c));
}

double rise_under_plunger(const Case &c)
{
  const CouponShape shape(c, model_extent(c));
  if (shape.straight())
    return 0;
  const Plunger &p    = c.fixture.plunger;
  const auto     over = [&](double x)
  {
    const double r = p.nose_radius, out = std::min(std::abs(x) - (p.width / 2 - r), r);
    return shape.top(x) - (out > 0 ? r - std::sqrt(r * r - out * out) : 0.);
  };
  return largest(c, -p.width / 2, p.width / 2, over);
}

double touch_level(const Case &c)
{
  return coupon_level(c) + c.coupon.thickness + rise_under_plunger(c) + contact_band(c);
}

double last_tangent_level(const Shoulders &shoulders)
{
  return shoulders.kind == ShoulderKind::rollers
             ? -shoulders.radius
             : -(shoulders.depth - shoulders.bottom_radius);
}

double arc_end_level(const Shoulders &shoulders)
{
  return -shoulders.radius;
}
} // namespace throughbend
