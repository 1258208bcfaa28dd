#include "meshes/tools/rigid_profile.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace throughbend
{
namespace
{
constexpr double pi = 3.14159265358979323846;

/// angle - start brought into [0, 2 pi), with a breath of slack below 0 so that a tie at
/// the arc's first point stays on the arc.
double angle_past(double angle, double start)
{
  constexpr double slack = 1e-12;
  double           past  = std::fmod(angle - start, 2 * pi);
  if (past < 0)
    past += 2 * pi;
  return past > 2 * pi - slack ? 0. : past;
}
} // namespace

double length(PlaneVector a)
{
  return std::hypot(a.x, a.y);
}

RigidProfile RigidProfile::rounded(const std::vector<Corner> &corners)
{
  const std::size_t n = corners.size();
  if (n < 3)
    throw std::invalid_argument("a rounded profile needs at least three corners");

  // Edge k runs from corner k to corner k+1; the fillet at k cuts trim[k] off both its
  // edges.
  std::vector<PlaneVector> along(n);
  std::vector<double>      edge(n), trim(n), turn(n);
  for (std::size_t k = 0; k < n; ++k)
  {
    const PlaneVector d = corners[(k + 1) % n].point - corners[k].point;
    edge[k]             = throughbend::length(d);
    if (edge[k] <= 0)
      throw std::invalid_argument("two corners of a profile coincide");
    along[k] = (1 / edge[k]) * d;
  }
  for (std::size_t k = 0; k < n; ++k)
  {
    const PlaneVector in = along[(k + n - 1) % n], out = along[k];
    turn[k] = std::atan2(in.x * out.y - in.y * out.x, dot(in, out));
    if (turn[k] <= 0)
      throw std::invalid_argument("profile corners must be convex and counter-clockwise");
    assert(corners[k].radius >= 0 && "a corner is rounded inward");
    trim[k] = corners[k].radius * std::tan(turn[k] / 2);
  }

  RigidProfile profile;
  // The last edge is cut in two halves so that the arc length can start in its middle.
  const std::size_t last     = n - 1;
  double            s        = 0;
  const auto        add_line = [&](std::size_t k, double from, double to)
  {
    const double span = to - from;
    if (span < -1e-9 * edge[k])
      throw std::invalid_argument(
          "the radii of neighbouring corners do not fit their line");
    if (span > 1e-12 * edge[k])
      profile.lines_.push_back({corners[k].point + from * along[k],
                                along[k],
                                {along[k].y, -along[k].x},
                                span,
                                s});
    s += std::max(span, 0.);
  };
  add_line(last, edge[last] / 2, edge[last] - trim[0]);
  for (std::size_t k = 0; k < n; ++k)
  {
    const double      radius = corners[k].radius;
    const PlaneVector in     = along[(k + n - 1) % n];
    const PlaneVector n_in   = {in.y, -in.x};
    const PlaneVector centre = corners[k].point - trim[k] * in - radius * n_in;
    profile.arcs_.push_back(arc(centre, radius, std::atan2(n_in.y, n_in.x), turn[k], s));
    s += radius * turn[k];
    if (k == last)
      add_line(last, trim[last], edge[last] / 2);
    else
      add_line(k, trim[k], edge[k] - trim[k + 1]);
  }

  const double huge = std::numeric_limits<double>::max();
  profile.low_      = {huge, huge};
  profile.high_     = {-huge, -huge};
  for (const Corner &c : corners)
  {
    profile.low_  = {std::min(profile.low_.x, c.point.x),
                     std::min(profile.low_.y, c.point.y)};
    profile.high_ = {std::max(profile.high_.x, c.point.x),
                     std::max(profile.high_.y, c.point.y)};
  }
  return profile;
}

RigidProfile RigidProfile::disc(PlaneVector centre, double radius)
{
  RigidProfile profile;
  profile.arcs_.push_back(arc(centre, radius, -pi / 2, 2 * pi, 0));
  profile.low_  = centre - PlaneVector{radius, radius};
  profile.high_ = centre + PlaneVector{radius, radius};
  return profile;
}

PlaneVector RigidProfile::point_at(const double arc_length) const
{
  PlaneVector nearest;
  double      least = std::numeric_limits<double>::infinity(); // beside the piece [mm]
  for (const Arc &arc : arcs_)
  {
    const double past = std::clamp(arc_length - arc.arc_length, 0., arc.radius * arc.sweep);
    const double off  = std::abs(arc_length - arc.arc_length - past);
    if (off >= least)
      continue;
    least              = off;
    const double angle = arc.start_angle + (arc.radius > 0 ? past / arc.radius : 0.);
    nearest = arc.centre + arc.radius * PlaneVector{std::cos(angle), std::sin(angle)};
  }
  for (const Line &line : lines_)
  {
    const double past = std::clamp(arc_length - line.arc_length, 0., line.length);
    const double off  = std::abs(arc_length - line.arc_length - past);
    if (off >= least)
      continue;
    least   = off;
    nearest = line.start + past * line.direction;
  }
  return nearest;
}

double RigidProfile::sharpest() const
{
  double radius = std::numeric_limits<double>::infinity();
  for (const Arc &arc : arcs_)
    radius = std::min(radius, arc.radius);
  return radius;
}

RigidProfile::Arc RigidProfile::arc(const PlaneVector centre, const double radius,
                                    const double start_angle, const double sweep,
                                    const double arc_length)
{
  const double end_angle = start_angle + sweep;
  return {centre,
          radius,
          start_angle,
          sweep,
          arc_length,
          {std::cos(start_angle), std::sin(start_angle)},
          {std::cos(end_angle), std::sin(end_angle)}};
}

/// Angle from an arc's first point to where a point stands, seen from its centre [rad].
/// From its very centre all of an arc is equally near: its first point will do.
double RigidProfile::past(const Arc &arc, const PlaneVector q)
{
  const double angle = q.x != 0 || q.y != 0 ? std::atan2(q.y, q.x) : arc.start_angle;
  return angle_past(angle, arc.start_angle);
}

/// Whether a point, seen from an arc's centre, stands before the arc: without the angles,
/// which are half the cost of a contact search. Unsure near its two ends, and for an arc
/// between half a circle and a full one.
RigidProfile::Side RigidProfile::side(const Arc &arc, const PlaneVector q)
{
  constexpr double slack = 1e-9;
  const auto cross = [](PlaneVector a, PlaneVector b) { return a.x * b.y - a.y * b.x; };
  if (arc.sweep >= 2 * pi)
    return Side::within;
  if (arc.sweep > pi - slack)
    return Side::unsure;
  const double past = cross(arc.from, q), ahead = cross(q, arc.to);
  const double margin = slack * (std::abs(q.x) + std::abs(q.y));
  if (past < -margin || ahead < -margin)
    return Side::outside;
  return past > margin && ahead > margin ? Side::within : Side::unsure;
}

Proximity RigidProfile::proximity(PlaneVector point) const
{
  Proximity   nearest;
  const Arc  *at    = nullptr; // the arc that is nearest, if one is
  double      least = std::numeric_limits<double>::max();
  PlaneVector from_centre;
  // What rounding may do to a distance: a tie is still a tie, and goes to the arc.
  const double rounding = 1e-12 * (high_.x - low_.x + high_.y - low_.y);
  for (const Arc &arc : arcs_)
  {
    const PlaneVector q     = point - arc.centre;
    const Side        where = side(arc, q);
    if (where == Side::outside)
      continue;
    const double r   = throughbend::length(q);
    const double gap = r - arc.radius;
    if (std::abs(gap) >= least ||
        (where == Side::unsure && past(arc, q) > arc.sweep + 1e-12))
      continue;
    least       = std::abs(gap);
    at          = &arc;
    from_centre = q;
    nearest.gap = gap;
  }
  for (const Line &line : lines_)
  {
    const PlaneVector q = point - line.start;
    const double      s = dot(q, line.direction);
    if (s < 0 || s > line.length)
      continue;
    const double gap = dot(q, line.normal);
    if (std::abs(gap) < least - rounding)
    {
      least   = std::abs(gap);
      at      = nullptr;
      nearest = {gap, line.normal, 0., line.arc_length + s};
    }
  }
  if (at == nullptr)
    return nearest;
  const double r    = throughbend::length(from_centre);
  nearest.normal    = r > 0 ? (1 / r) * from_centre : at->from;
  nearest.curvature = at->radius > 0 ? 1 / at->radius : 0.;
  nearest.arc_length =
      at->arc_length + at->radius * std::min(past(*at, from_centre), at->sweep);
  return nearest;
}

std::vector<PlaneVector> RigidProfile::outline(double angle) const
{
  // Arcs and line starts in the order of their arc length.
  std::vector<std::pair<double, PlaneVector>> points;
  for (const Line &line : lines_)
  {
    points.emplace_back(line.arc_length, line.start);
    points.emplace_back(line.arc_length + line.length,
                        line.start + line.length * line.direction);
  }
  for (const Arc &arc : arcs_)
  {
    const int pieces = std::max(1, static_cast<int>(std::ceil(arc.sweep / angle)));
    for (int i = 0; i <= pieces; ++i)
    {
      const double past = arc.sweep * i / pieces, a = arc.start_angle + past;
      points.emplace_back(arc.arc_length + arc.radius * past,
                          arc.centre + arc.radius * PlaneVector{std::cos(a), std::sin(a)});
    }
  }
  std::stable_sort(points.begin(), points.end(),
                   [](const auto &a, const auto &b) { return a.first < b.first; });
  std::vector<PlaneVector> outline;
  for (const auto &entry : points)
    if (outline.empty() || throughbend::length(entry.second - outline.back()) > 1e-9)
      outline.push_back(entry.second);
  return outline;
}
} // namespace throughbend
