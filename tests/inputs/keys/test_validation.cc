#include "inputs/keys/validation.h"

#include "inputs/keys/case_reader.h"
#include "inputs/keys/starter_case.h"
#include "tests/support/flow_curves.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
/// A sound case, the invented one of the starter, to be spoiled in one place at a time.
Case sound()
{
  return read_case_text(starter_text(), "starter", {}).value.value();
}

Objection only_objection(const Case &c)
{
  const std::vector<Objection> found = find_objections(c);
  for (const Objection &objection : found)
    UNSCOPED_INFO(objection.problem);
  REQUIRE(found.size() == 1);
  CHECK_FALSE(found.front().cure.empty());
  return found.front();
}

Case with_table(const std::vector<FlowPoint> &points)
{
  Case c          = sound();
  c.material.flow = tabulated(points);
  return c;
}
} // namespace

TEST_CASE("the starter case meets no objection and no remark", "[unit][validation]")
{
  CHECK(find_objections(sound()).empty());
  CHECK(find_remarks(sound()).empty());
}

TEST_CASE("a coupon thicker than the clearance is a case like any other",
          "[unit][validation]")
{
  Case c = sound();
  for (const double thickness : {11., 11.6, 12., 12.5, 13., 25.})
  {
    c.coupon.thickness = thickness;
    CHECK(find_objections(c).empty());
  }
}

TEST_CASE("weld and heat-affected bands must lie inside the coupon", "[unit][validation]")
{
  Case c           = sound();
  c.weld.width     = 20;
  c.weld.haz_width = 30;
  c.weld.offset    = -40; // reaches 40 + 40 = 80, the coupon's very end
  CHECK(find_objections(c).empty());
  c.weld.offset             = -41;
  const Objection objection = only_objection(c);
  CHECK(objection.keys.front() == "weld.width");
  CHECK_THAT(objection.problem, Contains("81 mm") && Contains("80 mm"));
  c.weld.offset = 41;
  CHECK_THAT(only_objection(c).problem, Contains("81 mm"));
}

TEST_CASE("the plunger must be narrower than the opening", "[unit][validation]")
{
  Case c                  = sound();
  c.fixture.plunger.width = 63.1;
  CHECK(find_objections(c).empty());
  c.fixture.plunger.width = 63.2;
  CHECK_THAT(only_objection(c).problem, Contains("63.2 mm"));
}

TEST_CASE("the nose radius is at most half the plunger", "[unit][validation]")
{
  Case c                        = sound();
  c.fixture.plunger.nose_radius = 20.5;
  CHECK_THAT(only_objection(c).problem, Contains("20.5 mm") && Contains("40 mm"));
}

TEST_CASE("a wall that its two edges fill is deep enough, whatever the last digit says",
          "[unit][validation]")
{
  Case c                            = sound();
  c.fixture.shoulders.radius        = 3.4;
  c.fixture.shoulders.depth         = 7.8;
  c.fixture.shoulders.bottom_radius = 7.8 - 3.4; // and 3.4 more than that exceeds 7.8
  REQUIRE(c.fixture.shoulders.radius + c.fixture.shoulders.bottom_radius > 7.8);
  CHECK(find_objections(c).empty());
  c.fixture.shoulders.bottom_radius = 4.41;
  CHECK_FALSE(find_objections(c).empty());
}

TEST_CASE("a nose that is a half round but for rounding is one", "[unit][validation]")
{
  Case     c       = sound();
  Plunger &plunger = c.fixture.plunger;
  plunger          = {50, 25 * (1 + 1e-12)};
  CHECK(find_objections(c).empty());
  plunger.settle_nose();
  CHECK(plunger.nose_radius == 25);
  plunger.nose_radius = 25 * (1 - 1e-12);
  plunger.settle_nose();
  CHECK(plunger.nose_radius == 25);
  // Any more was measured or meant.
  plunger.nose_radius = 25 * (1 + 1e-8);
  CHECK_THAT(only_objection(c).problem, Contains("does not fit"));
  plunger.nose_radius = 25 * (1 - 1e-8);
  plunger.settle_nose();
  CHECK(plunger.nose_radius < 25);
}

TEST_CASE("a full-round nose may be written in other units than the plunger's width",
          "[unit][validation]")
{
  const CaseReading reading =
      read_case_text(starter_text(), "starter",
                     {"--plunger.width", "0.164041994750656 ft", "--plunger.nose_radius",
                      "0.984251968503937 in", "--shoulders.opening", "73.2 mm"});
  INFO(error_list(reading.errors));
  REQUIRE(reading.value.has_value());
  const Plunger &plunger = reading.value->fixture.plunger;
  CHECK(plunger.width == Approx(50));
  CHECK(plunger.nose_radius == plunger.width / 2);
  CHECK_FALSE(plunger.flat_nose());
}

TEST_CASE("a coupon that would fall through unbent is refused with the numbers",
          "[unit][validation]")
{
  Case c          = sound();
  c.coupon.length = 63.2;
  CHECK_THAT(only_objection(c).problem, Contains("fall through") && Contains("31.6 mm"));
  c.coupon.length = 100;
  c.coupon.offset = -18.5; // 50 - 18.5 = 31.5 on the short side
  CHECK_THAT(only_objection(c).problem, Contains("31.5 mm"));
  c.coupon.offset = -18.3;
  CHECK(find_objections(c).empty());
}

TEST_CASE("a coupon that lies on the round of the shoulder is remarked on",
          "[unit][validation]")
{
  Case c          = sound();
  c.coupon.length = 100; // reaches 50, the shoulder's top is at 31.6 + 20
  CHECK(find_objections(c).empty());
  REQUIRE(find_remarks(c).size() == 1);
  CHECK_THAT(find_remarks(c).front(), Contains("51.6 mm"));
}

TEST_CASE("a coupon is longer than thick", "[unit][validation]")
{
  Case c             = sound();
  c.coupon.length    = 120;
  c.coupon.thickness = 120;
  CHECK_THAT(only_objection(c).problem, Contains("thicker"));
}

TEST_CASE("the shoulder's wall must hold both its edges", "[unit][validation]")
{
  Case c                    = sound();
  c.fixture.shoulders.depth = 25;
  CHECK(find_objections(c).empty());
  c.fixture.shoulders.depth = 24.9;
  CHECK_THAT(only_objection(c).problem, Contains("24.9 mm"));
  c.fixture.shoulders.kind = ShoulderKind::rollers;
  CHECK(find_objections(c).empty());
}

TEST_CASE("frame plates stand outside of the shoulders and hold their edges",
          "[unit][validation]")
{
  Case c          = sound();
  c.fixture.frame = {80, 1.5, 1.5, 10, 1};
  CHECK(find_objections(c).empty());
  c.fixture.frame.distance = 51.6;
  CHECK_THAT(only_objection(c).problem, Contains("51.6 mm"));
  c.fixture.frame = {80, 1.5, 1.5, 10, 5.1};
  CHECK_THAT(only_objection(c).problem, Contains("5.1 mm"));
  c.fixture.frame = {90, 1.5, 1.5, 10, 1};
  CHECK(find_objections(c).empty());
  CHECK_THAT(find_remarks(c).at(0), Contains("does not reach the frame"));
}

TEST_CASE("a table of flow stress begins at zero strain and never turns back",
          "[unit][validation]")
{
  CHECK(find_objections(with_table({{0, 250}, {0.1, 300}, {0.2, 300}})).empty());
  CHECK_THAT(only_objection(with_table({{0, 250}})).problem, Contains("two points"));
  CHECK_THAT(only_objection(with_table({{0.01, 250}, {0.1, 300}})).problem,
             Contains("strain 0.01"));
  CHECK_THAT(only_objection(with_table({{0, 250}, {0.2, 300}, {0.1, 350}})).problem,
             Contains("point 3") && Contains("does not rise"));
  CHECK_THAT(only_objection(with_table({{0, 250}, {0.2, 300}, {0.2, 350}})).problem,
             Contains("does not rise"));
  CHECK_THAT(only_objection(with_table({{0, 250}, {0.2, 240}})).problem,
             Contains("falls from 250 MPa to 240 MPa"));
  CHECK_THAT(only_objection(with_table({{0, 0}, {0.2, 240}})).problem,
             Contains("the stress is 0 MPa"));
}

TEST_CASE("a swift curve must begin at a yield stress", "[unit][validation]")
{
  Case c          = sound();
  c.material.flow = swift_hardening(700, 0.01, 0.5); // 70 MPa
  CHECK(find_objections(c).empty());
  c.material.flow.prestrain = 1e-6; // 0.7 MPa
  CHECK_THAT(only_objection(c).problem, Contains("0.7 MPa"));
}

TEST_CASE("a yield strain that no metal has is taken as a slip in the units",
          "[unit][validation]")
{
  Case c           = sound();
  c.material.young = 5000; // 250 / 5000 = 5 %
  CHECK(find_objections(c).empty());
  c.material.young = 2000;
  CHECK_THAT(only_objection(c).problem, Contains("12.5 %"));
}

TEST_CASE("a cell is no longer than the coupon is thick", "[unit][validation]")
{
  Case c           = sound();
  c.mesh.cell_size = 10;
  CHECK(find_objections(c).empty());
  c.mesh.cell_size = 10.1;
  CHECK_THAT(only_objection(c).problem, Contains("10.1 mm"));
}

TEST_CASE("an objection blames a key the user wrote", "[unit][validation]")
{
  // The nose radius is the likelier culprit, but here it is the plunger that was typed.
  std::string       text = starter_text();
  const CaseReading reading =
      read_case_text(text, "shop.ini", {"--shoulders.opening", "40 mm"});
  REQUIRE(reading.errors.size() == 1);
  CHECK(reading.errors.front().key == "plunger.width");
  CHECK_THAT(reading.errors.front().text(),
             Contains("shop.ini:") && Contains("plunger.width = 40 mm"));

  // shoulders.depth is a default here: bottom_radius was typed.
  const CaseReading wall =
      read_case_text(text, "shop.ini", {"--shoulders.bottom_radius", "30 mm"});
  REQUIRE(wall.errors.size() == 1);
  CHECK_THAT(wall.errors.front().text(),
             Contains("shoulders.radius") || Contains("shoulders.bottom_radius"));
}

TEST_CASE("an objection is not raised on values that were refused by themselves",
          "[unit][validation]")
{
  const CaseReading reading =
      read_case_text(starter_text(), "shop.ini", {"--shoulders.opening", "wide"});
  REQUIRE(reading.errors.size() == 1);
  CHECK(reading.errors.front().key == "shoulders.opening");
}

TEST_CASE("a backstress must leave a yield surface and rise less steeply than the metal "
          "is stiff",
          "[unit][validation]")
{
  Case c               = sound();
  c.material.flow      = voce_hardening(250, 200, 12);
  c.material.kinematic = {150, 20};
  CHECK(find_objections(c).empty());

  // A curve that does not rise: what is shifted is taken off the surface. 230 of 250 leave
  // 8 %.
  c.material.flow.saturation = 0;
  CHECK(find_objections(c).empty());
  c.material.kinematic.saturation = 230;
  CHECK_THAT(only_objection(c).problem, Contains("20 MPa of the yield stress 250 MPa"));

  // young / 4 = 52.5 GPa.
  c.material.kinematic = {100, 500};
  CHECK(find_objections(c).empty());
  c.material.kinematic = {100, 600};
  CHECK_THAT(only_objection(c).problem, Contains("saturation times rate"));
}

TEST_CASE(
    "a coupon that would sag under its own weight is refused with the length that will "
    "do",
    "[unit][validation]")
{
  // By hand: 3 * 9.81e-9 * 7850 s^4 / (2 * 210000 t^2) with t = 0.5 mm is a fifth of s at
  // s = 449.7 mm; the end reaches 1500 - 31.6 - 20 = 1448 mm over its shoulder.
  Case c             = sound();
  c.coupon.thickness = 0.5;
  c.coupon.length    = 3000;
  const Objection o  = only_objection(c);
  CHECK_THAT(o.problem, Contains("1448.4 mm over its shoulder"));
  CHECK_THAT(o.cure, Contains("coupon.length up to 1002 mm"));
  c.coupon.length = 1002;
  CHECK(find_objections(c).empty());
  c.coupon.length = 1003;
  CHECK(find_objections(c).size() == 1);
  // A shop's coupons are far from it.
  c                  = sound();
  c.coupon.length    = 1000;
  c.coupon.thickness = 1.5;
  CHECK(find_objections(c).empty());
}

TEST_CASE(
    "a leg drawn down over a hundred bites of the shoulder is refused with the opening "
    "that leaves it room",
    "[unit][validation]")
{
  // By hand: a bite of sqrt(1 * 12) = 3.46 mm, 346 mm in all; with 26 mm quarter round of
  // the nose, (40 + 12) / 2 pi / 2 = 40.8 mm, half a length of 387.2 mm.
  Case c                     = sound();
  c.coupon.thickness         = 12; // room 11.6 mm
  c.fixture.shoulders.radius = 1;
  c.coupon.length            = 774;
  CHECK(find_objections(c).empty());
  c.coupon.length   = 776;
  const Objection o = only_objection(c);
  CHECK_THAT(o.problem, Contains("12 mm thick") && Contains("gap of 11.6 mm"));
  CHECK_THAT(o.cure, Contains("shoulders.opening from 64 mm") &&
                         Contains("coupon.length up to 774 mm"));
  c.fixture.shoulders.opening = 64;
  CHECK(find_objections(c).empty());
  c.fixture.shoulders.opening = 63.2;
  c.coupon.length             = 774;
  CHECK(find_objections(c).empty());
}

TEST_CASE("rounded edges too small for the cells of a 3D model are refused, in the plane "
          "they do not matter",
          "[unit][validation]")
{
  Case c               = sound(); // 10 mm thick: 0.1 mm at least
  c.coupon.edge_radius = 0.09;
  CHECK(find_objections(c).empty());
  c.mesh.dimension  = 3;
  const Objection o = only_objection(c);
  CHECK_THAT(o.problem, Contains("0.09 mm are too small"));
  CHECK_THAT(o.cure, Contains("0 mm (sharp edges)") && Contains("at least 0.1 mm"));
  for (const double radius : {0., 0.1, 4.})
  {
    c.coupon.edge_radius = radius;
    CHECK(find_objections(c).empty());
  }
}

TEST_CASE("keys that speak against each other are told", "[unit][validation]")
{
  // By hand: Considere of the yard's plate gives 379 MPa; t / (A + t) = 20 %, in plane
  // strain p = 2 / sqrt(3) ln 1.2 = 0.21, and 1.4 times that at most.
  Case c                      = sound();
  c.material.tensile_strength = 380;
  CHECK(find_remarks(c).empty());
  c.material.tensile_strength = 100;
  REQUIRE(find_remarks(c).size() == 1);
  CHECK_THAT(find_remarks(c).front(), Contains("100 MPa") && Contains("379"));
  c.material.tensile_strength = 0;
  c.material.flow.last_strain = 0.2;
  REQUIRE(find_remarks(c).size() == 1);
  CHECK_THAT(find_remarks(c).front(), Contains("p = 0.211 to 0.295") &&
                                          Contains("backed up to 0.2:") &&
                                          Contains("extrapolated"));
  c.material.flow.last_strain = 0.3;
  CHECK(find_remarks(c).empty());

  c.ram.jack = {60, 80, 20, 10};
  CHECK_THAT(only_objection(c).problem, Contains("80 mm") && Contains("60 mm"));
  c.ram.jack.pump_bore = 20;
  CHECK(find_objections(c).empty());
}
