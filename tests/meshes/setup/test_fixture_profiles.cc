// The shop's dimensions must land where a caliper would look for them. Dimensions are
// invented, those of reference case R among them.

#include "meshes/setup/fixture_profiles.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
double gap(const RigidProfile &profile, double x, double y)
{
  return profile.proximity({x, y}).gap;
}

Case with_rollers(double radius, double opening)
{
  Case c                      = reference_case();
  c.fixture.shoulders         = {};
  c.fixture.shoulders.kind    = ShoulderKind::rollers;
  c.fixture.shoulders.radius  = radius;
  c.fixture.shoulders.opening = opening;
  return c;
}
} // namespace

TEST_CASE("The clear distance between the shoulders is the opening, from the arc's end to "
          "the bottom fillet",
          "[unit][profile]")
{
  const Case         c = reference_case();
  const RigidProfile r = shoulder_profile(c.fixture, Side::right),
                     l = shoulder_profile(c.fixture, Side::left);
  for (const double y : {-20.0, -25.0, -33.0, -40.0})
  {
    CHECK(gap(r, 31.6, y) == Approx(0).margin(1e-12));
    CHECK(gap(l, -31.6, y) == Approx(0).margin(1e-12));
    CHECK(gap(r, 30.6, y) == Approx(1));
    CHECK(gap(l, -32.1, y) == Approx(-0.5));
  }
  // The arc of radius 20 is centred at (51.6, -20); its top lies at height 0.
  CHECK(gap(r, 51.6, 0) == Approx(0).margin(1e-12));
  CHECK(r.proximity({51.6, 1}).normal.y == Approx(1));
  CHECK(gap(r, 51.6 - 20 * std::sqrt(0.5), -20 + 20 * std::sqrt(0.5)) ==
        Approx(0).margin(1e-12));
  // The bottom fillet of radius 5 is centred at (36.6, -40), the wall ends at -45.
  CHECK(gap(r, 36.6 - 5 * std::sqrt(0.5), -40 - 5 * std::sqrt(0.5)) ==
        Approx(0).margin(1e-12));
  CHECK(gap(r, 45, -45) == Approx(0).margin(1e-12));
}

TEST_CASE("The left shoulder is the right one in a mirror", "[unit][profile]")
{
  Case c          = reference_case();
  c.fixture.frame = {80, 1.5, 1.5, 10, 1};
  for (const Case &which : {reference_case(), c, with_rollers(25, 70)})
  {
    const RigidProfile r = shoulder_profile(which.fixture, Side::right),
                       l = shoulder_profile(which.fixture, Side::left);
    for (double x = 25; x < 95; x += 3.7)
      for (double y = -52; y < 8; y += 3.1)
      {
        const Proximity right = r.proximity({x, y}), left = l.proximity({-x, y});
        CHECK(left.gap == Approx(right.gap).margin(1e-12));
        // Where two places are equally near, either may be named.
        if (right.gap < 0)
          continue;
        CHECK(left.normal.x == Approx(-right.normal.x).margin(1e-9));
        CHECK(left.normal.y == Approx(right.normal.y).margin(1e-9));
        CHECK(left.curvature == Approx(right.curvature));
      }
  }
}

TEST_CASE("Rollers leave the opening between them and have their tops at height 0",
          "[unit][profile]")
{
  const Case         c = with_rollers(25, 70);
  const RigidProfile r = shoulder_profile(c.fixture, Side::right),
                     l = shoulder_profile(c.fixture, Side::left);
  CHECK(gap(r, 35, -25) == Approx(0).margin(1e-12));
  CHECK(gap(l, -35, -25) == Approx(0).margin(1e-12));
  CHECK(gap(r, 60, 0) == Approx(0).margin(1e-12));
  CHECK(gap(l, -60, 0) == Approx(0).margin(1e-12));
}

TEST_CASE("The nose's lowest point is at touch level and the flanks stand at half width",
          "[unit][profile]")
{
  // A half round nose, and a flat one with corner radii.
  const RigidProfile round = plunger_profile({40, 20}, 10, 200),
                     flat  = plunger_profile({50, 10}, 10, 200);
  CHECK(gap(round, 0, 10) == Approx(0).margin(1e-12));
  CHECK(round.proximity({0, 9}).normal.y == Approx(-1));
  CHECK(gap(round, 20 * std::sin(0.7), 30 - 20 * std::cos(0.7)) == Approx(0).margin(1e-12));
  CHECK(gap(flat, 0, 10) == Approx(0).margin(1e-12));
  CHECK(gap(flat, 15, 10) == Approx(0).margin(1e-12));
  CHECK(flat.proximity({3, 9}).curvature == 0);
  CHECK(flat.proximity({24, 11}).curvature == Approx(0.1));
  for (const double y : {30.0, 100.0, 200.0})
  {
    CHECK(gap(round, 20, y) == Approx(0).margin(1e-12));
    CHECK(gap(round, -21, y) == Approx(1));
    CHECK(gap(flat, 25.5, y) == Approx(0.5));
  }
}

TEST_CASE("The frame's opening clears the flat coupon by what was asked for",
          "[unit][profile]")
{
  const Frame frame{80, 1.5, 2.5, 10, 1};
  for (const Side side : {Side::left, Side::right})
  {
    const double s      = side == Side::left ? -1 : 1;
    const auto   plates = frame_profiles(frame, 10, side);
    REQUIRE(plates.size() == 2);
    const RigidProfile &above = plates[0], &below = plates[1];
    // Middle of the plate's 10 mm: upper edge at 10 + 1.5, lower one at -2.5.
    CHECK(gap(above, s * 85, 11.5) == Approx(0).margin(1e-12));
    CHECK(gap(above, s * 85, 10) == Approx(1.5));
    CHECK(gap(below, s * 85, -2.5) == Approx(0).margin(1e-12));
    CHECK(gap(below, s * 85, 0) == Approx(2.5));
    // Inside and outside faces.
    CHECK(gap(above, s * 80, 20) == Approx(0).margin(1e-12));
    CHECK(gap(below, s * 79, -20) == Approx(1));
    CHECK(gap(below, s * 91, -20) == Approx(1));
    // The fillet of radius 1 on the edge that an end can catch on.
    CHECK(gap(above, s * (81 - std::sqrt(0.5)), 12.5 - std::sqrt(0.5)) ==
          Approx(0).margin(1e-12));
  }
}

TEST_CASE("A shoulder block ends at the frame when the frame is near", "[unit][profile]")
{
  Case c          = reference_case();
  c.fixture.frame = {56, 1.5, 1.5, 10, 1};
  CHECK(gap(shoulder_profile(c.fixture, Side::right), 57, -30) == Approx(1));
}

TEST_CASE("A sharp shoulder with a larger rounding below is a block, too",
          "[unit][profile]")
{
  Case c                            = reference_case();
  c.fixture.shoulders.radius        = 2;
  c.fixture.shoulders.depth         = 27;
  c.fixture.shoulders.bottom_radius = 5;
  const RigidProfile r              = shoulder_profile(c.fixture, Side::right);
  CHECK(gap(r, 31.6, -10) == Approx(0).margin(1e-12)); // the wall
  CHECK(gap(r, 36.6, -27) == Approx(0).margin(1e-12)); // where the rounding ends
}

TEST_CASE("A coupon whose ends reach over the shoulders' tops rests at height 0",
          "[unit][profile]")
{
  CHECK(resting_height(reference_case()) == 0);
  Case just          = reference_case();
  just.coupon.length = 2 * 51.6;
  CHECK(resting_height(just) == 0);
}

TEST_CASE("A short coupon hangs with its lower corner exactly on the arc",
          "[unit][profile]")
{
  for (const double length : {100.0, 90.0, 75.0})
    for (const double offset : {0.0, 1.5, -4.0})
      for (const bool rollers : {false, true})
      {
        Case c               = rollers ? with_rollers(20, 63.2) : reference_case();
        c.coupon.length      = length;
        c.coupon.offset      = offset;
        const double       y = resting_height(c);
        const RigidProfile r = shoulder_profile(c.fixture, Side::right),
                           l = shoulder_profile(c.fixture, Side::left);
        const double right   = gap(r, offset + length / 2, y),
                     left    = gap(l, offset - length / 2, y);
        INFO("length " << length << " offset " << offset << " rollers " << rollers);
        if (std::max(length / 2 + offset, length / 2 - offset) >= 51.6)
        {
          CHECK(y == 0); // one end reaches over its top and lies there
          continue;
        }
        CHECK(y < 0);
        CHECK(std::min(left, right) == Approx(0).margin(1e-9));
        CHECK(std::max(left, right) >= -1e-9);
      }
}

TEST_CASE("Nothing touches a shoulder below the last tangent level", "[unit][profile]")
{
  for (const Case &c : {reference_case(), with_rollers(25, 70)})
  {
    const double       level = last_tangent_level(c.fixture.shoulders);
    const double       wall  = c.fixture.shoulders.opening / 2;
    const RigidProfile r     = shoulder_profile(c.fixture, Side::right);
    CHECK(gap(r, wall, level) == Approx(0).margin(1e-9));
    for (const double below : {0.1, 1.0, 4.0, 30.0})
      CHECK(gap(r, wall, level - below) > 0);
    CHECK(gap(r, wall + 0.1, level + 0.01) < 0);
  }
  CHECK(last_tangent_level(reference_case().fixture.shoulders) == Approx(-40));
  CHECK(last_tangent_level(with_rollers(25, 70).fixture.shoulders) == Approx(-25));
}

TEST_CASE("The shoulder's arc ends where its wall begins", "[unit][profile]")
{
  const Case         c     = reference_case();
  const RigidProfile r     = shoulder_profile(c.fixture, Side::right);
  const double       level = arc_end_level(c.fixture.shoulders);
  CHECK(r.proximity({31, level + 0.01}).curvature == Approx(1. / 20));
  CHECK(r.proximity({31, level - 0.01}).curvature == 0);
}

TEST_CASE("Arc length runs on without a jump wherever the coupon can slide",
          "[unit][profile]")
{
  // From the tool's top down its inner side to an eighth of a turn past the upright
  // tangent, that is what a leg slides over; friction counts slip by these lengths.
  for (const Side side : {Side::right, Side::left})
    for (const Case &c : {reference_case(), with_rollers(25, 70)})
    {
      const bool         rollers = c.fixture.shoulders.kind == ShoulderKind::rollers;
      const double       s       = side == Side::left ? -1 : 1;
      const double       r       = c.fixture.shoulders.radius;
      const double       centre  = c.fixture.shoulders.opening / 2 + r;
      const RigidProfile profile = shoulder_profile(c.fixture, side);
      double             before  = profile.proximity({s * centre, 0}).arc_length;
      const double       step    = 0.01;
      for (double angle = step; angle < (rollers ? 2.3 : 1.57); angle += step)
      {
        const PlaneVector p{s * (centre - r * std::sin(angle)), -r + r * std::cos(angle)};
        const double      now = profile.proximity(p).arc_length;
        INFO((rollers ? "roller" : "solid")
             << (s > 0 ? ", right" : ", left") << ", " << angle << " rad past the top");
        CHECK(std::abs(now - before) == Approx(r * step).epsilon(1e-6));
        before = now;
      }
    }
}
