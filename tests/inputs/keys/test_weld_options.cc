// The weld's keys: what follows from what, and what is refused with which words. Cases are
// invented.

#include "tests/support/case_texts.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
Case read(const std::vector<std::string> &words)
{
  return case_of(workshop_text(), words);
}

std::string complaint(const std::vector<std::string> &words)
{
  return only_complaint(workshop_text(), words);
}
} // namespace

TEST_CASE("A bevelled weld needs no more than its preparation", "[unit][weld]")
{
  const Case c = read({"--weld.preparation=single_v", "--weld.haz_width=3 mm"});
  CHECK(c.weld.has_metal());
  CHECK(c.weld.gap() == Approx(2));
  CHECK(c.weld.included_angle == Approx(std::acos(-1.) / 3));
  CHECK(c.weld.transition == Approx(1));
  CHECK(c.weld.haz_end_ratio() == 1);
  CHECK(c.weld.cap.height == 0);
  CHECK(read({"--weld.preparation=single_bevel"}).weld.included_angle ==
        Approx(std::acos(-1.) / 4));
  // The plain coupon has none of it.
  CHECK(!read({}).weld.present());
}

TEST_CASE("A cap is as wide as the weld at its surface and 3 mm more", "[unit][weld]")
{
  const Case c = read({"--weld.preparation=single_v", "--weld.cap_height=2 mm",
                       "--weld.root_bead_height=1 mm"});
  CHECK(c.weld.cap.width == Approx(2 + 2 * 8.5 * std::tan(std::acos(-1.) / 6) + 3));
  CHECK(c.weld.root_bead.width == Approx(2 + 3));
  CHECK(c.weld.toe_radius == Approx(1));
}

TEST_CASE("A zone may have a flow curve of its own instead of a ratio", "[unit][weld]")
{
  const Case c =
      read({"--weld.width=12 mm", "--weld.haz_width=4 mm", "--weld.haz_ratio=0.9",
            "--weld.metal_law=swift", "--weld_metal.strength=900 MPa",
            "--weld_metal.prestrain=0.01", "--weld_metal.exponent=0.15"});
  CHECK(c.weld.metal_flow.own);
  CHECK(c.weld.metal_flow.curve.stress(0.1) == Approx(900 * std::pow(0.11, 0.15)));
  CHECK(!c.weld.haz_flow.own);
  CHECK(has(complaint({"--weld.width=12 mm", "--weld.metal_law=perfect"}),
            "weld_metal.yield"));
  CHECK(has(complaint({"--weld.width=12 mm", "--weld.metal_law=table",
                       "--weld_metal.table=0:300 MPa, 0.1:280 MPa"}),
            "not a flow curve"));
}

TEST_CASE("What the model cannot show is refused with the reason", "[unit][weld]")
{
  CHECK(has(complaint({"--weld.width=8 mm", "--weld.direction=longitudinal"}),
            "plane strain does not have"));
  CHECK(has(complaint({"--weld.preparation=double_v", "--weld.bend=side"}),
            "mesh.dimension = 3"));
  CHECK(has(complaint({"--weld.preparation=single_v", "--weld.bend=side",
                       "--weld.included_angle=20 deg", "--mesh.dimension=3"}),
            "square or double_v"));
  CHECK(has(complaint({"--weld.preparation=single_v", "--weld.root_opening=0 mm"}),
            "weld.penetration"));
  CHECK(has(complaint({"--weld.preparation=single_v", "--weld.root_face=10 mm"}),
            "leaves no bevel"));
  CHECK(has(complaint({"--weld.width=8 mm", "--weld.cap_height=4 mm"}), "too steep"));
  CHECK(has(complaint({"--weld.preparation=single_v", "--weld.included_angle=150 deg",
                       "--weld.offset=50 mm"}),
            "but the coupon ends at"));
  // The same in three dimensions, and a closed gap that was melted through, are welcome.
  read({"--weld.width=8 mm", "--weld.direction=longitudinal", "--mesh.dimension=3"});
  read({"--weld.preparation=double_v", "--weld.bend=side", "--mesh.dimension=3"});
  read({"--weld.preparation=single_v", "--weld.root_opening=0 mm",
        "--weld.penetration=1 mm"});
}

TEST_CASE(
    "A backstress is the plate's: zones scaled from it have it, one with its own curve "
    "is refused",
    "[unit][weld]")
{
  const std::vector<std::string> shifting = {"--material.kinematic_saturation=60 MPa",
                                             "--material.kinematic_rate=30"};
  const auto                     with     = [&](std::vector<std::string> words)
  {
    words.insert(words.end(), shifting.begin(), shifting.end());
    return words;
  };
  const std::string said = complaint(with(
      {"--weld.width=12 mm", "--weld.metal_law=perfect", "--weld_metal.yield=400 MPa"}));
  CHECK(has(said, "weld.metal_law"));
  CHECK(has(said, "has no backstress"));
  CHECK(has(said, "weld.strength_ratio in place of the zone's own curve"));
  CHECK(has(complaint(with({"--weld.width=12 mm", "--weld.haz_width=4 mm",
                            "--weld.haz_law=perfect", "--haz.yield=200 MPa"})),
            "weld.haz_ratio in place of"));
  // Graded and mixed like any other strength.
  const Case graded = read(with({"--weld.width=12 mm", "--weld.haz_width=4 mm",
                                 "--weld.haz_ratio=0.8", "--weld.haz_base_ratio=1"}));
  CHECK(graded.material.kinematic.present());
  CHECK(graded.weld.haz_end_ratio() == 1);
}

TEST_CASE("A taper must leave a coupon and fit the frame", "[unit][validation]")
{
  CHECK(has(complaint({"--coupon.taper=11 mm"}), "less than half"));
  CHECK(has(complaint({"--coupon.taper=4 mm", "--frame.distance=78 mm",
                       "--frame.clearance_above=1 mm"}),
            "clears only"));
  CHECK(read({"--coupon.taper=-1 mm"}).coupon.taper == -1);
}

TEST_CASE("What is measured on a bent weld has defaults; without a weld nothing is",
          "[unit][weld]")
{
  const Case c = read({"--weld.width=12 mm"});
  CHECK(c.inspection.gauge_length == Approx(40));     // 4 t
  CHECK(c.inspection.wire_diameter == Approx(3.175)); // 1/8 in
  CHECK(read({"--weld.width=12 mm", "--inspection.gauge_length=3t"})
            .inspection.gauge_length == Approx(30));
  CHECK(read({}).inspection.wire_diameter == 0);
  CHECK(read({"--inspection.wire_diameter=1/8 in"}).inspection.wire_diameter ==
        Approx(3.175));
  CHECK(has(complaint({"--weld.width=12 mm", "--weld.offset=20 mm",
                       "--inspection.gauge_length=130 mm"}),
            "but the coupon ends at"));
  // Said without a weld it has no meaning, and the reader is told.
  CHECK(!read_case_text(workshop_text(), "case.ini", {"--inspection.gauge_length=40 mm"})
             .remarks.empty());
}

TEST_CASE("What a zone bears is stated, or its grade's", "[unit][weld]")
{
  const Case stated = read({"--weld.width=12 mm", "--weld.haz_width=3 mm",
                            "--weld_metal.elongation=0.22", "--haz.limit_strain=0.4"});
  CHECK(stated.weld.metal_flow.elongation == 0.22);
  CHECK(stated.weld.metal_flow.limit_strain == 0);
  CHECK(stated.weld.haz_flow.limit_strain == 0.4);
  const Case graded =
      read({"--weld.width=12 mm", "--weld.metal_grade=a572-50"}); // 21 % in the catalogue
  CHECK(graded.weld.metal_flow.elongation == Approx(0.21));
  CHECK(read({"--weld.width=12 mm", "--weld.metal_grade=a572-50",
              "--weld_metal.elongation=0.3"})
            .weld.metal_flow.elongation == 0.3);
}
