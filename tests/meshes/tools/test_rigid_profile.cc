// Outlines against what a ruler would find: shapes whose distance is known by hand, and
// the nearest of very many points laid along the outline. Dimensions are invented.

#include "meshes/tools/rigid_profile.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>
#include <stdexcept>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846;

/// A block with four different fillets, lower left corner at (-3, -2), 30 by 20 mm.
RigidProfile uneven_block()
{
  return RigidProfile::rounded(
      {{{-3, 18}, 0}, {{-3, -2}, 8}, {{27, -2}, 3}, {{27, 18}, 0.5}});
}

RigidProfile pentagon()
{
  return RigidProfile::rounded(
      {{{0, 0}, 2}, {{12, -3}, 1}, {{20, 6}, 4}, {{9, 16}, 0}, {{-4, 9}, 1.5}});
}

/// The profile's own outline, cut into pieces so short that a piece is as good as its arc.
std::vector<PlaneVector> fine_outline(const RigidProfile &profile)
{
  std::vector<PlaneVector> corners = profile.outline(1e-3), fine;
  corners.push_back(corners.front());
  for (std::size_t i = 0; i + 1 < corners.size(); ++i)
  {
    const int pieces =
        std::max(1, static_cast<int>(length(corners[i + 1] - corners[i]) / 0.01));
    for (int k = 0; k < pieces; ++k)
      fine.push_back(corners[i] + (double(k) / pieces) * (corners[i + 1] - corners[i]));
  }
  return fine;
}

bool inside(const std::vector<PlaneVector> &polygon, PlaneVector p)
{
  bool in = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++)
    if ((polygon[i].y > p.y) != (polygon[j].y > p.y) &&
        p.x < polygon[i].x + (p.y - polygon[i].y) / (polygon[j].y - polygon[i].y) *
                                 (polygon[j].x - polygon[i].x))
      in = !in;
  return in;
}

double distance_to(const std::vector<PlaneVector> &points, PlaneVector p)
{
  double least = 1e300;
  for (const PlaneVector &q : points)
    least = std::min(least, length(p - q));
  return least;
}

/// Distance to a box, outside positive; the box shrunk by r and grown again by it is the
/// box with fillets r (a Minkowski sum), which needs no arcs.
double rounded_box_gap(PlaneVector p, double half_x, double half_y, double r)
{
  const double qx = std::abs(p.x) - half_x + r, qy = std::abs(p.y) - half_y + r;
  return std::hypot(std::max(qx, 0.), std::max(qy, 0.)) + std::min(std::max(qx, qy), 0.) -
         r;
}
} // namespace

TEST_CASE("The gap to an evenly rounded box is that of a box grown by its fillet",
          "[unit][profile]")
{
  const RigidProfile box =
      RigidProfile::rounded({{{-10, 6}, 2}, {{-10, -6}, 2}, {{10, -6}, 2}, {{10, 6}, 2}});
  std::mt19937                           random(11);
  std::uniform_real_distribution<double> x(-15, 15), y(-11, 11);
  for (int i = 0; i < 2000; ++i)
  {
    const PlaneVector p{x(random), y(random)};
    // Deep inside, the box grown by a fillet is not the distance to the outline any more.
    const double expected = rounded_box_gap(p, 10, 6, 2);
    if (expected < -2)
      continue;
    CHECK(box.proximity(p).gap == Approx(expected).margin(1e-12));
  }
}

TEST_CASE("Gap and side agree with the nearest of very many outline points",
          "[unit][profile]")
{
  std::mt19937 random(7);
  for (const RigidProfile &profile : {uneven_block(), pentagon()})
  {
    const std::vector<PlaneVector>         outline = fine_outline(profile);
    std::uniform_real_distribution<double> x(-8, 32), y(-8, 24);
    for (int i = 0; i < 300; ++i)
    {
      const PlaneVector p{x(random), y(random)};
      const Proximity   near = profile.proximity(p);
      CHECK(std::abs(near.gap) == Approx(distance_to(outline, p)).margin(2e-3));
      if (std::abs(near.gap) > 1e-5)
        CHECK((near.gap < 0) == inside(outline, p));
      CHECK(length(near.normal) == Approx(1).epsilon(1e-14));
      const PlaneVector foot = p - near.gap * near.normal;
      CHECK(std::abs(profile.proximity(foot).gap) < 1e-11);
      CHECK(distance_to(outline, foot) < 0.0052); // half the spacing of the points
    }
  }
}

TEST_CASE("Points of the outline lie on it", "[unit][profile]")
{
  for (const RigidProfile &profile :
       {uneven_block(), pentagon(), RigidProfile::disc({4, -3}, 19)})
    for (const PlaneVector &p : profile.outline(0.05))
      CHECK(std::abs(profile.proximity(p).gap) < 1e-12);
}

TEST_CASE("A rounded block's outline is as long as its lines and arcs by hand",
          "[unit][profile]")
{
  const std::vector<PlaneVector> points = uneven_block().outline(1e-4);
  double                         sum    = length(points.front() - points.back());
  for (std::size_t i = 0; i + 1 < points.size(); ++i)
    sum += length(points[i + 1] - points[i]);
  // 2 (30 + 20) minus 2 r per corner plus a quarter circle per corner.
  const double radii = 8 + 3 + 0.5;
  CHECK(sum == Approx(100 - 2 * radii + pi / 2 * radii).epsilon(1e-7));
}

TEST_CASE("Curvature is that of the fillet on an arc and none on a line", "[unit][profile]")
{
  const RigidProfile block = uneven_block();
  CHECK(block.proximity({10, -4}).curvature == 0);
  CHECK(block.proximity({-4, -3}).curvature == Approx(1. / 8));
  CHECK(block.proximity({28, -3}).curvature == Approx(1. / 3));
  CHECK(RigidProfile::disc({0, 0}, 25).proximity({3, 30}).curvature == Approx(1. / 25));
}

TEST_CASE("Walking along the outline, the normal turns without a jump and the arc length "
          "grows evenly",
          "[unit][profile]")
{
  // Only filleted corners: at a sharp one the normal does jump.
  const RigidProfile block =
      RigidProfile::rounded({{{-3, 18}, 1}, {{-3, -2}, 8}, {{27, -2}, 3}, {{27, 18}, 0.5}});
  const std::vector<PlaneVector> points = fine_outline(block);
  int                            starts = 0;
  for (std::size_t i = 0; i < points.size(); ++i)
  {
    const PlaneVector a = points[i], b = points[(i + 1) % points.size()];
    const Proximity   from = block.proximity(a), to = block.proximity(b);
    const double      step = length(b - a);
    if (step < 1e-9)
      continue; // the outline closes where it began
    CHECK(length(to.normal - from.normal) <= step / 0.5 + 1e-9);
    // Counter-clockwise: the step points along (-n_y, n_x).
    const PlaneVector tangent{-from.normal.y, from.normal.x};
    CHECK(dot(b - a, tangent) > 0.99 * step);
    if (to.arc_length < from.arc_length)
      ++starts; // once around
    else
      CHECK(to.arc_length - from.arc_length == Approx(step).epsilon(1e-4));
  }
  CHECK(starts == 1);
}

TEST_CASE("From its foot and its gap a point is found again", "[unit][profile]")
{
  std::mt19937                           random(5);
  std::uniform_real_distribution<double> place(-15, 40);
  for (const RigidProfile &profile :
       {uneven_block(), pentagon(), RigidProfile::disc({4, -3}, 7)})
    for (int i = 0; i < 1000; ++i)
    {
      const PlaneVector point = {place(random), place(random)};
      const Proximity   near  = profile.proximity(point);
      CHECK(length(profile.point_at(near.arc_length) + near.gap * near.normal - point) <
            1e-9);
    }
}

TEST_CASE("The arc length starts in the middle of the line from the last corner to the "
          "first",
          "[unit][profile]")
{
  const RigidProfile block = uneven_block(); // last line: (27, 18) to (-3, 18)
  CHECK(block.proximity({11.9, 18}).arc_length == Approx(0.1).margin(1e-12));
  const double around = 100 - 23 + pi / 2 * 11.5;
  CHECK(block.proximity({12.1, 18}).arc_length == Approx(around - 0.1));
}

TEST_CASE("A tie between line and arc goes to the arc", "[unit][profile]")
{
  const RigidProfile block = uneven_block();
  // Where the fillet of radius 8 leaves the bottom (x = 5) and the left side (y = 6).
  for (const double gap : {0., 0.3, -0.3})
  {
    CHECK(block.proximity({5, -2 - gap}).curvature == Approx(1. / 8));
    CHECK(block.proximity({-3 - gap, 6}).curvature == Approx(1. / 8));
    CHECK(block.proximity({5.001, -2 - gap}).curvature == 0);
    CHECK(block.proximity({-3 - gap, 6.001}).curvature == 0);
  }
}

TEST_CASE("The gap's derivative is the normal, the normal's is its turn along the outline, "
          "and the foot runs with it",
          "[unit][profile]")
{
  std::mt19937                           random(3);
  std::uniform_real_distribution<double> x(-6, 30), y(-6, 22);
  const double                           h    = 1e-6;
  int                                    arcs = 0, lines = 0;
  for (const RigidProfile &profile : {uneven_block(), pentagon()})
    for (int i = 0; i < 400; ++i)
    {
      const PlaneVector p{x(random), y(random)};
      const Proximity   at = profile.proximity(p);
      if (at.gap < -0.4) // past the smallest fillet's centre: several nearest places
        continue;
      const PlaneVector n       = at.normal, t{-n.y, n.x};
      const double      stretch = 1 + at.curvature * at.gap;
      bool              smooth  = true;
      for (const PlaneVector d : {PlaneVector{1, 0}, PlaneVector{0, 1}})
        smooth = smooth && profile.proximity(p + h * d).curvature == at.curvature &&
                 profile.proximity(p - h * d).curvature == at.curvature;
      // A sharp corner reports no curvature, yet its normal turns; it is no place to touch.
      const PlaneVector foot = p - at.gap * n;
      for (const PlaneVector sharp : {PlaneVector{-3, 18}, PlaneVector{9, 16}})
        smooth = smooth && length(foot - sharp) > 1e-3;
      if (!smooth)
        continue;
      (at.curvature > 0 ? arcs : lines) += 1;
      for (const PlaneVector d : {PlaneVector{1, 0}, PlaneVector{0, 1}})
      {
        const Proximity plus  = profile.proximity(p + h * d),
                        minus = profile.proximity(p - h * d);
        CHECK((plus.gap - minus.gap) / (2 * h) == Approx(dot(n, d)).margin(1e-8));
        const PlaneVector turn = (1 / (2 * h)) * (plus.normal - minus.normal);
        const PlaneVector want = (at.curvature / stretch * dot(t, d)) * t;
        CHECK(length(turn - want) < 1e-7);
        CHECK((plus.arc_length - minus.arc_length) / (2 * h) ==
              Approx(dot(t, d) / stretch).margin(1e-7));
      }
    }
  CHECK(arcs > 50);
  CHECK(lines > 50);
}

TEST_CASE("A disc is the same from everywhere", "[unit][profile]")
{
  // From the lowest point on, which no coupon touches, counter-clockwise.
  const RigidProfile disc = RigidProfile::disc({-2, 5}, 19);
  for (int i = 0; i < 97; ++i)
  {
    const double past = 2 * pi * i / 97 + 1e-3, a = past - pi / 2;
    for (const double r : {3., 18.5, 19., 24.})
    {
      const Proximity near =
          disc.proximity(PlaneVector{-2, 5} + r * PlaneVector{std::cos(a), std::sin(a)});
      CHECK(near.gap == Approx(r - 19).margin(1e-12));
      CHECK(near.normal.x == Approx(std::cos(a)).margin(1e-12));
      CHECK(near.normal.y == Approx(std::sin(a)).margin(1e-12));
      CHECK(near.arc_length == Approx(19 * past));
    }
  }
}

TEST_CASE("The very centre of a disc is a radius deep, not on its outline",
          "[unit][profile]")
{
  const Proximity near = RigidProfile::disc({1, 2}, 19).proximity({1, 2});
  CHECK(near.gap == Approx(-19));
  CHECK(length(near.normal) == Approx(1));
}

TEST_CASE("A point that is near enough to touch is always within reach", "[unit][profile]")
{
  std::mt19937                           random(5);
  std::uniform_real_distribution<double> x(-12, 36), y(-12, 28);
  for (const RigidProfile &profile :
       {uneven_block(), pentagon(), RigidProfile::disc({9, 6}, 7)})
    for (int i = 0; i < 500; ++i)
    {
      const PlaneVector p{x(random), y(random)};
      if (profile.proximity(p).gap < 3 - 1e-9)
        CHECK(profile.within_reach(p, 3));
    }
  CHECK_FALSE(RigidProfile::disc({0, 0}, 5).within_reach({8.1, 0}, 3));
}

TEST_CASE("A profile that is not convex, or whose radii do not fit, is refused",
          "[unit][profile]")
{
  using Corners   = std::vector<Corner>;
  const auto make = [](const Corners &corners) { return RigidProfile::rounded(corners); };
  // Clockwise, re-entrant, straight corner, coinciding corners, too few.
  CHECK_THROWS_AS(make({{{0, 0}, 0}, {{0, 9}, 0}, {{9, 9}, 0}, {{9, 0}, 0}}),
                  std::invalid_argument);
  CHECK_THROWS_AS(make({{{0, 0}, 0}, {{9, 0}, 0}, {{4, 2}, 0}, {{0, 9}, 0}}),
                  std::invalid_argument);
  CHECK_THROWS_AS(make({{{0, 0}, 0}, {{4, 0}, 0}, {{9, 0}, 0}, {{4, 9}, 0}}),
                  std::invalid_argument);
  CHECK_THROWS_AS(make({{{0, 0}, 0}, {{0, 0}, 0}, {{9, 0}, 0}, {{4, 9}, 0}}),
                  std::invalid_argument);
  CHECK_THROWS_AS(make({{{0, 0}, 0}, {{9, 0}, 0}}), std::invalid_argument);
  // Radii 5 and 5 on a side of 9, then 5 and 4, which just fit.
  CHECK_THROWS_AS(make({{{0, 0}, 5}, {{9, 0}, 5}, {{9, 30}, 0}, {{0, 30}, 0}}),
                  std::invalid_argument);
  CHECK_NOTHROW(make({{{0, 0}, 5}, {{9, 0}, 4}, {{9, 30}, 0}, {{0, 30}, 0}}));
  // On the line that the arc length starts on, too.
  CHECK_THROWS_AS(make({{{0, 0}, 5}, {{30, 0}, 0}, {{30, 9}, 0}, {{0, 9}, 5}}),
                  std::invalid_argument);
}
