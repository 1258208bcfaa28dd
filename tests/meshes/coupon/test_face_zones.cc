// Where the zones meet the convex face, by trigonometry. Welds are invented.

#include "meshes/coupon/face_zones.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
Case coupon_with(const Weld &weld)
{
  Case c;
  c.coupon = {160, 38, 10};
  c.weld   = weld;
  return c;
}

Weld single_v()
{
  Weld weld;
  weld.preparation    = Preparation::single_v;
  weld.root_opening   = 2;
  weld.root_face      = 1.5;
  weld.included_angle = std::acos(-1.) / 3;
  weld.haz_width      = 3;
  return weld;
}
} // namespace

TEST_CASE("A square weld off the centre: five stretches that join", "[unit][weld]")
{
  Weld weld;
  weld.width         = 12;
  weld.haz_width     = 4;
  weld.offset        = 2;
  const auto   zones = face_stretches(coupon_with(weld));
  const double end[] = {-80, -8, -4, 8, 12, 80};
  REQUIRE(zones.size() == 5);
  for (std::size_t i = 0; i < zones.size(); ++i)
  {
    CHECK(zones[i].zone == static_cast<FaceZone>(i));
    CHECK(zones[i].from == Approx(end[i]));
    CHECK(zones[i].to == Approx(end[i + 1]));
  }
  CHECK(weld_middle(zones).value() == Approx(2));
}

TEST_CASE("A V is wide on the face, narrow at the root; its HAZ is measured along the face",
          "[unit][weld]")
{
  Weld         weld  = single_v();
  const double half  = 1 + 8.5 * std::tan(std::acos(-1.) / 6); // gap and bevel
  auto         zones = face_stretches(coupon_with(weld));
  CHECK(zones[2].from == Approx(-half));
  CHECK(zones[2].to == Approx(half));
  // 3 mm square to a line that leans by 30 degrees are 3 / cos 30 along the face.
  CHECK(zones[3].length() == Approx(3 / std::cos(std::acos(-1.) / 6)));

  weld.bend = BendKind::root;
  zones     = face_stretches(coupon_with(weld));
  CHECK(zones[2].from == Approx(-1));
  CHECK(zones[3].length() == Approx(3)); // beside the straight root face
}

TEST_CASE("A single bevel leans to the right: its middle on the face lies there",
          "[unit][weld]")
{
  Weld weld           = single_v();
  weld.preparation    = Preparation::single_bevel;
  weld.included_angle = std::acos(-1.) / 4;
  const auto zones    = face_stretches(coupon_with(weld));
  CHECK(zones[2].from == Approx(-1));
  CHECK(zones[2].to == Approx(1 + 8.5));
  CHECK(weld_middle(zones).value() == Approx(8.5 / 2));
}

TEST_CASE("Without weld metal, without a weld, along the coupon", "[unit][weld]")
{
  Weld heat;
  heat.haz_width = 5;
  auto zones     = face_stretches(coupon_with(heat));
  REQUIRE(zones.size() == 4); // two bands that meet in the middle
  CHECK(zones[1].zone == FaceZone::left_haz);
  CHECK(zones[1].to == Approx(0).margin(1e-12));
  CHECK(weld_middle(zones).value() == Approx(0).margin(1e-12));

  zones = face_stretches(coupon_with({}));
  REQUIRE(zones.size() == 2);
  CHECK(zones[0].zone == FaceZone::left_base);
  CHECK_FALSE(weld_middle(zones).has_value());

  Weld along = single_v();
  along.run  = WeldRun::longitudinal;
  zones      = face_stretches(coupon_with(along));
  REQUIRE(zones.size() == 1);
  CHECK(zones[0].zone == FaceZone::weld);
  CHECK_FALSE(weld_middle(zones).has_value());
}

TEST_CASE("A side bend shows the weld's section halfway through the plate", "[unit][weld]")
{
  Weld weld        = single_v(); // a double V, narrow at half depth
  weld.preparation = Preparation::double_v;
  weld.bend        = BendKind::side;
  const auto zones = face_stretches(coupon_with(weld));
  CHECK(zones[2].from == Approx(-1));
  CHECK(zones[2].to == Approx(1));
}
