// What `check` says of tools, jack and squeeze, against handbook values and hand counts.

#include "solver/mechanics/line_contact.h"
#include "solver/screening/ejection.h"
#include "solver/screening/ironing.h"
#include "solver/screening/jack_work.h"
#include "solver/screening/length_needed.h"
#include "solver/screening/screening.h"
#include "tests/support/reference_case.h"
#include "tests/support/screen_line.h"
#include "tests/verify/slip_lines.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
constexpr double degree = 3.14159265358979323846 / 180;

Case reference()
{
  Case c = reference_case();
  c.ram  = {80e3, 120};
  return c;
}
} // namespace

TEST_CASE("Hertz' line contact", "[unit][screening]")
{
  // Computed by hand: rigid roller on steel, E 200 GPa, nu 0.3, R 19.05 mm.
  const double rigid = 200e3 / 0.91, steel = contact_modulus(200e3, 0.3, 200e3, 0.3);
  CHECK(hertz_line(100, 19.05, rigid).half_width == Approx(0.1051).margin(1e-4));
  CHECK(hertz_line(100, 19.05, rigid).pressure == Approx(606).margin(1));
  CHECK(hertz_line(500, 19.05, rigid).half_width == Approx(0.2349).margin(1e-4));
  CHECK(hertz_line(500, 19.05, rigid).pressure == Approx(1355).margin(1));
  CHECK(hertz_line(100, 19.05, steel).half_width == Approx(0.1486).margin(1e-4));
  CHECK(hertz_line(100, 19.05, steel).pressure == Approx(428.5).margin(0.5));
  CHECK(hertz_line(250, 19.05, steel).pressure == Approx(677.5).margin(0.5));
  CHECK(hertz_line(500, 19.05, steel).half_width == Approx(0.3322).margin(1e-4));
  CHECK(hertz_line(1000, 19.05, steel).pressure == Approx(1355).margin(1));
  // The NAFEMS/FENET benchmark D3613 no. 1 (Konter 2005): half cylinder R 50 mm, E 210 GPa,
  // on a block E 70 GPa, 35 kN per mm: a 6.21 mm, p0 3585 MPa.
  const double mixed = contact_modulus(210e3, 0.3, 70e3, 0.3);
  CHECK(hertz_line(35e3, 50, mixed).half_width == Approx(6.2146).margin(1e-3));
  CHECK(hertz_line(35e3, 50, mixed).pressure == Approx(3585.36).margin(0.5));
  // Johnson 1985: 447 MPa for Y 250. Prandtl: 2.968 Y.
  CHECK(first_yield_pressure(250) == Approx(447).margin(1));
  CHECK(denting_pressure(1) == Approx(2.968).margin(1e-3));
}

TEST_CASE("pressure of narrow dies is that of the slip-line field", "[unit][screening]")
{
  // Hill (1950), from memory: 1 for a slab as high as the die is wide; 2.571 = 1 + pi/2 at
  // 8.72, printed to three figures.
  CHECK(indentation_pressure(1) == Approx(1));
  CHECK(indentation_pressure(8.72) == Approx(2.571).epsilon(1e-3));
  CHECK(indentation_pressure(8.5) < 2.571);
  CHECK(indentation_pressure(30) == Approx(2.5708).epsilon(1e-4));
  CHECK(indentation_pressure(0.3) == 1);
  // The tests' own integration, step by step down the axis.
  for (double ratio = 1.1; ratio < 10; ratio += 0.35)
  {
    INFO(ratio);
    CHECK(indentation_pressure(ratio) ==
          Approx(slip_lines::indentation_pressure(ratio)).epsilon(5e-4));
  }
}

TEST_CASE("ironing a leg that is too thick", "[unit][screening]")
{
  // By hand: excess 1, room 11.15, radius 19.05 mm: bite sqrt(38.1 - 1) = 6.091 mm, ratio
  // 23.3 / 6.091 = 3.825.
  const Ironing i{1, 11.15, 19.05, 0};
  CHECK(bite_length(i) == Approx(6.091).margin(0.001));
  CHECK(bite_ratio(i) == Approx(3.825).margin(0.001));
  const double pressure = 288.7 * slip_lines::indentation_pressure(3.825);
  CHECK(ironing_force(i, 288.7 * std::sqrt(3.) / 2) == Approx(pressure).epsilon(0.001));
  // Each tenth of friction adds a tenth of the bite.
  CHECK(ironing_force({1, 11.15, 19.05, 0.1}, 250) / ironing_force(i, 250) ==
        Approx(1.6091).margin(0.0002));
  // More than Sachs' slab, 33.0 kN for both legs, by half and more: the rung `ironing`.
  CHECK(2 * 38.1 * ironing_force({1, 11.15, 19.05, 0.1}, 250) > 1.5 * 33.0e3);
  CHECK(ironing_force({0, 10, 20, 0.1}, 250) == 0);
  CHECK(ironing_force({-1, 10, 20, 0.1}, 250) == 0);
  // An excess beyond the radius bites on all of the round.
  CHECK(bite_length({30, 10, 20, 0.1}) == Approx(20));
}

TEST_CASE("the capstan's multiplication", "[unit][screening]")
{
  CHECK(capstan_ratio(0.1, 45 * degree) == Approx(1.082).margin(6e-4));
  CHECK(capstan_ratio(0.15, 90 * degree) == Approx(1.266).margin(6e-4));
  CHECK(capstan_ratio(0.3, 180 * degree) == Approx(2.566).margin(6e-4));
}

TEST_CASE("a jack's gauge, strokes and hand", "[unit][screening]")
{
  // 20 t (196 kN) at 60 MPa need 64.5 mm of bore: by hand.
  Jack jack;
  jack.bore = 64.5;
  CHECK(jack_work(jack, 196.133e3, 100).pressure == Approx(60).epsilon(0.002));
  CHECK_FALSE(jack_work(jack, 1000, 100).strokes);
  CHECK_FALSE(jack_work(jack, 1000, 100).hand_force);
  // By hand: bore 40, pump 10 mm: ratio 1/16. 16 mm of pump stroke move the ram 1 mm.
  jack                = {40, 10, 16, 20};
  const JackWork work = jack_work(jack, 32e3, 120);
  CHECK(*work.strokes == Approx(120));
  CHECK(*work.hand_force == Approx(32e3 / 16 / (20 * 0.85)));
}

TEST_CASE("travel until the ends are past the shoulders", "[unit][screening]")
{
  // Two independent computations of reference case R: the tip is 1 mm below the shoulder's
  // arc (level -21) at 91.8 +- 0.4 mm of travel. The last upright tangent is at -40, 19 mm
  // lower, and upright legs go down with the plunger.
  CHECK(travel_to_pass(reference()) == Approx(91.8 + 19).margin(0.4));
  Case rollers                   = reference();
  rollers.fixture.shoulders.kind = ShoulderKind::rollers;
  CHECK(travel_to_pass(rollers) == Approx(91.8 - 1).margin(0.4));
}

TEST_CASE("lengths, legs and offsets by geometry", "[unit][screening]")
{
  Case c = reference();
  CHECK(shortest_length(c) == Approx(103.2));
  CHECK(straight_leg_length(c) == Approx(80 - 25 * 90 * degree));
  // A 6 in coupon on the 3/8 in, 4t fixture loses its shoulders near 87.7 deg: by hand.
  Case jig                      = reference();
  jig.coupon                    = {152.4, 38.1, 9.525, 0};
  jig.fixture.plunger           = {38.1, 19.05};
  jig.fixture.shoulders.radius  = 19.05;
  jig.fixture.shoulders.opening = 60.325;
  CHECK(support_lost_angle(jig) / degree == Approx(87.7).margin(0.15));
  CHECK(half_length_needed(jig, 85 * degree) == Approx(55.6).margin(0.1));
  // A flat coupon's need at the start, half the span, is more than at 45 deg.
  CHECK(half_length_needed(jig, 45 * degree) == Approx(49.2).margin(0.1));
  CHECK(offset_for_support(jig, 85 * degree) == Approx(76.2 - 55.6).margin(0.1));
  CHECK(std::isinf(offset_for_frame(jig)));
  jig.fixture.frame.distance = 80;
  CHECK(offset_for_frame(jig) == Approx(80 - 76.2));
}

TEST_CASE("the frame's reach on a coupon", "[unit][screening]")
{
  Case c          = reference();
  c.fixture.frame = {80, 1.5, 1.5, 10, 1};
  CHECK(frame_length(c) == Approx(160));
  CHECK(frame_reach(c) == FrameReach::clear);
  // The simulated passes of tests/verify: 165, 180 and 200 mm catch on these plates.
  for (const double length : {165., 180., 200.})
  {
    c.coupon.length = length;
    CHECK(frame_reach(c) == FrameReach::catches);
  }
  // By hand: an end 0.05 mm past the plate is drawn in by 1 - cos and the nose's round
  // before a leg that may rise 30 mm touches anything.
  c.coupon.length                 = 160.1;
  c.fixture.frame.clearance_above = 30;
  CHECK(frame_reach(c) == FrameReach::slips);
  c.fixture.frame = {};
  CHECK(frame_reach(c) == FrameReach::clear);
}

TEST_CASE("the bound of the ejection speed", "[unit][screening]")
{
  // By hand: 7.85 kg/dm^3 times 0.0608 dm^3 = 0.4773 kg; 10 J make 6.47 m/s.
  CHECK(ejection_bound({160, 38, 10, 0}, 7850, 10e3) == Approx(6.473).margin(0.002));
}

TEST_CASE("no tool is cleared of what a squeezed leg does to it", "[unit][screening]")
{
  // A pass of this program, quick mesh, 0.1 mm too thick: 142 kN on one leg, where the
  // bend's band ended at 78 kN. What bounds a pressure is the coupon's own face.
  Case c                    = reference_case();
  c.fixture.shoulders.yield = c.fixture.plunger.yield = 450;
  for (const char *tool : {"shoulder", "nose"})
  {
    const std::string name = tool;
    c.coupon.thickness     = c.fixture.clearance(0) - 2;
    CHECK(std::isfinite(*line(screen(c), name + "_line_load").high));
    c.coupon.thickness  = c.fixture.clearance(0) + 0.1;
    const Screening all = screen(c);
    CHECK(std::isinf(*line(all, name + "_line_load").high));
    const double strain = force_band(c).outer_strain.value; // of the face at last
    REQUIRE(strain > 0.05);
    CHECK(*line(all, name + "_pressure").high ==
          Approx(denting_pressure(c.material.flow.stress(strain))));
    CHECK(line(all, name + "_pressure").verdict != Verdict::ok);
    c.fixture.shoulders.yield = c.fixture.plunger.yield = 250;
    CHECK(std::isinf(*line(screen(c), name + "_dent").high));
    c.fixture.shoulders.yield = c.fixture.plunger.yield = 450;
  }
}

TEST_CASE(
    "the strongest zone presses on the tools, and the nose bears more than at first touch",
    "[unit][screening]")
{
  Case         c    = reference_case();
  const auto   high = [&](const std::string &key) { return *line(screen(c), key).high; };
  const double plate =
      denting_pressure(c.material.flow.stress(force_band(c).outer_strain.value));
  CHECK(high("nose_pressure") == Approx(plate)); // of one metal its own face is the bound
  c.weld.width          = 12;
  c.weld.strength_ratio = 1.6;
  CHECK(high("nose_pressure") > 1.1 * plate);
  CHECK(high("nose_pressure") <= Approx(1.6 * plate));
  CHECK(line(screen(c), "nose_pressure").value <=
        denting_pressure(c.material.flow.stress(0.05)) * (1 + 1e-9));

  // Hard metal on a large round: its face bears any load, and Hertz' line decides. First
  // touch lies below the 1.8 shoulder loads of the coupon that hugs the nose.
  c                      = reference_case();
  c.material.flow        = c.material.flow.scaled(4);
  const ForceBand band   = force_band(c);
  const double    radius = c.fixture.plunger.nose_radius;
  const double modulus = contact_modulus(c.material.young, c.material.poisson, 210e3, 0.3);
  const auto   hertz   = [&](const double newtons)
  { return hertz_line(newtons / c.coupon.width, radius, modulus).pressure; };
  CHECK(line(screen(c), "nose_pressure").value == Approx(hertz(band.first_touch.value)));
  CHECK(high("nose_pressure") == Approx(hertz(1.8 * band.shoulder_force.high)));
  c.fixture.plunger.yield =
      (hertz(band.first_touch.high) + 1) / first_yield_pressure(1); // bears the touch only
  CHECK(line(screen(c), "nose_pressure").verdict == Verdict::close);
  CHECK(line(screen(c), "nose_dent").verdict != Verdict::ok);
}
