// What check says of cases that its formulas know only in part: a weld, a flaw, a cap, a
// taper, two frictions. Nothing of them is cleared, and bands reach as far as what is left
// out.

#include "postprocess/words/check_text.h"
#include "solver/screening/force_band.h"
#include "solver/screening/screen_parts.h"
#include "tests/support/reference_case.h"
#include "tests/support/screen_line.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
/// Reference case R with all that check wants to know, so that it clears all of it.
Case cleared()
{
  Case c                    = reference_case();
  c.ram                     = {80e3, 150};
  c.material.elongation     = 0.4;
  c.fixture.shoulders.yield = c.fixture.plunger.yield = 1800;
  return c;
}

Case welded()
{
  Case c                = cleared();
  c.weld.width          = 12;
  c.weld.strength_ratio = 1.6;
  return c;
}

bool names(const Screening &screening, const std::string &words)
{
  return std::any_of(screening.not_cleared.begin(), screening.not_cleared.end(),
                     [&](const std::string &each)
                     { return each.find(words) != each.npos; });
}
} // namespace

TEST_CASE("A plain coupon that all is known of is cleared", "[unit][screening]")
{
  CHECK(screen(cleared()).not_cleared.empty());
  CHECK(screen(cleared()).worst() == Verdict::ok);
}

TEST_CASE("Weld, flaw, cap, taper and a drier shoulder are never cleared by formulas",
          "[unit][screening]")
{
  CHECK(names(screen(welded()), "whether plate, weld and HAZ bear their stretch"));
  Case heated           = cleared();
  heated.weld.haz_width = 3;
  CHECK(names(screen(heated), "whether plate, weld and HAZ bear their stretch"));

  Case flawed                = welded();
  flawed.flaws.each[0].depth = 2;
  CHECK(names(screen(flawed), "how far the flaw opens"));

  Case capped            = welded();
  capped.weld.cap.height = 2;
  CHECK(names(screen(capped), "cap or root bead"));

  Case aside        = welded();
  aside.weld.offset = 8;
  CHECK(names(screen(aside), "walks out of a weld that does not lie in the middle"));
  CHECK_FALSE(names(screen(welded()), "walks"));

  Case tapered         = cleared();
  tapered.coupon.taper = -1;
  CHECK(names(screen(tapered), "thicker at one end"));

  Case dry                         = cleared();
  dry.friction.other_left_shoulder = 0.3;
  CHECK(names(screen(dry), "walks to one side"));
  CHECK_THAT(check_text(screen(dry), UnitSystem::metric), !Contains("OK: no line below"));
}

TEST_CASE("Force reaches from a coupon of the softest zone to one of the strongest",
          "[unit][screening]")
{
  // Stresses in proportion make moments and forces in proportion.
  const ScreenLine plain = line(screen(cleared()), "peak_force");
  const ScreenLine mixed = line(screen(welded()), "peak_force");
  CHECK(mixed.value == plain.value);
  CHECK(*mixed.low == Approx(*plain.low));
  CHECK(*mixed.high == Approx(1.6 * *plain.high));

  Case soft           = welded();
  soft.weld.haz_width = 3;
  soft.weld.haz_ratio = 0.7;
  CHECK(*line(screen(soft), "peak_force").low == Approx(0.7 * *plain.low));
  // Elastic energy goes with the square of the stress.
  CHECK(force_band(welded()).freed_energy ==
        Approx(1.6 * 1.6 * force_band(cleared()).freed_energy));

  Case weak         = welded();
  weak.ram.capacity = 1.2 * *plain.high; // enough for the plate, not for the weld
  CHECK(line(screen(weak), "peak_force").verdict == Verdict::close);
}

TEST_CASE("What a zone states that it bears is held against the bend", "[unit][screening]")
{
  Case c = welded(); // nominal stretch 10 / (40 + 10)
  CHECK(screen(c).find("nominal_elongation_weld") == nullptr);
  c.weld.metal_flow.elongation = 0.19;
  CHECK(line(screen(c), "nominal_elongation_weld").verdict == Verdict::no);
  c.weld.metal_flow.elongation = 0.28;
  CHECK(line(screen(c), "nominal_elongation_weld").verdict == Verdict::close); // never ok
  c.weld.haz_width             = 3;
  c.weld.haz_flow.limit_strain = 0.17; // exp(0.17) - 1 = 18.5 %
  CHECK(line(screen(c), "nominal_elongation_haz").verdict == Verdict::no);

  Case plate                  = cleared();
  plate.material.limit_strain = 0.15; // stands before the elongation
  CHECK(line(screen(plate), "outer_elongation").verdict == Verdict::no);
  plate.material.limit_strain = 0.5;
  plate.material.elongation   = 0;
  CHECK(line(screen(plate), "outer_elongation").verdict == Verdict::ok);
  CHECK(screen(plate).not_cleared.empty());
}

TEST_CASE("A plate softer than its weld is not cleared, nor any face of unlike zones",
          "[unit][screening]")
{
  const auto line = [](const Case &c, const std::string &key)
  {
    for (const ScreenSection &section : screen(c).sections)
      for (const ScreenLine &each : section.lines)
        if (each.key == key)
          return each;
    throw std::logic_error("no line " + key);
  };
  const Case even = [] // a weld of the plate's own metal
  {
    Case c                = welded();
    c.weld.strength_ratio = 1;
    return c;
  }();
  CHECK(line(even, "nominal_elongation").verdict == Verdict::ok);
  CHECK(line(even, "outer_elongation").verdict == Verdict::ok);
  CHECK(std::isfinite(*line(even, "outer_elongation").high));
  // 1.6 times as strong: passes stretch such a plate to twice the nominal stretch.
  CHECK(line(welded(), "nominal_elongation").verdict == Verdict::close);
  CHECK(line(welded(), "outer_elongation").verdict == Verdict::close);
  CHECK_FALSE(std::isfinite(*line(welded(), "outer_elongation").high));
  Case along     = welded(); // side by side its zones share one bend
  along.weld.run = WeldRun::longitudinal;
  CHECK(line(along, "nominal_elongation").verdict == Verdict::ok);
  CHECK(std::isfinite(*line(along, "outer_elongation").high));
  Case soft                = welded();
  soft.weld.strength_ratio = 0.7; // the plate gets less, the weld more
  CHECK(line(soft, "nominal_elongation").verdict == Verdict::ok);
  CHECK(line(soft, "outer_elongation").verdict == Verdict::close);
}

TEST_CASE("Metal that springs back by more than usual is not cleared to stand",
          "[unit][screening]")
{
  // 5083 in the soft state, on a wide plunger: its legs spring back by some 8 deg, and the
  // plane passes of it, 1 mm off centre, leave with legs at 74 and 89 deg.
  Case c                        = cleared();
  c.material.young              = 71e3;
  c.coupon.thickness            = 6;
  c.coupon.length               = 150;
  c.fixture.plunger.width       = 66;
  c.fixture.plunger.nose_radius = 33;
  c.fixture.shoulders.opening   = 81;
  c.ram.stroke                  = 1000;
  const auto find               = [](const ScreenSection &section, const std::string &key)
  {
    for (const ScreenLine &each : section.lines)
      if (each.key == key)
        return each;
    throw std::logic_error("no line " + key);
  };
  ForceBand  band = force_band(c);
  const auto with = [&](const double springback)
  {
    band.springback.value = springback * 3.14159265358979323846 / 180;
    return screen_length(c, band);
  };
  const ScreenSection stiff = with(4), springy = with(12);
  for (const char *key : {"length_needed", "support_lost", "offset_allowance"})
  {
    CHECK(find(stiff, key).verdict == Verdict::ok);
    CHECK(find(springy, key).verdict == Verdict::close);
  }
  // 4.5 % for legs not quite upright, and 1 % for each of the 12 - 5 deg.
  const double needed = find(springy, "stroke_needed").value;
  CHECK(*find(stiff, "stroke_needed").high == Approx(1.045 * needed));
  CHECK(*find(springy, "stroke_needed").high == Approx(1.115 * needed));
  c.ram.stroke = 1.113 * needed; // just more than needed over 0.9
  CHECK(find(screen_length(c), "stroke_needed").verdict == Verdict::ok);
  CHECK(find(screen_length(c, band), "stroke_needed").verdict == Verdict::close);
}

TEST_CASE("Two frictions make the band as wide as they are apart", "[unit][screening]")
{
  const auto peak = [](double right, double left)
  {
    Case c                         = cleared();
    c.friction.shoulders           = right;
    c.friction.other_left_shoulder = left;
    return line(screen(c), "peak_force");
  };
  const ScreenLine apart = peak(0.1, 0.3), low = peak(0.1, 0.1), high = peak(0.3, 0.3);
  CHECK(apart.value == Approx(peak(0.2, 0.2).value));
  CHECK(*apart.low == Approx(*low.low).epsilon(0.01));
  CHECK(*apart.high == Approx(*high.high).epsilon(0.01));
  CHECK(peak(0.3, 0.1).value == Approx(apart.value));
}

TEST_CASE("The thick end of a taper has to fit beside the plunger", "[unit][screening]")
{
  Case c = cleared(); // room (63.2 - 40) / 2 = 11.6 mm
  CHECK(line(screen(c), "clearance").verdict == Verdict::ok);
  for (const double taper : {3.4, -3.4}) // 10 + 1.7
  {
    c.coupon.taper        = taper;
    const Screening tight = screen(c);
    CHECK(line(tight, "clearance").verdict == Verdict::no);
    CHECK(line(tight, "pinch_thickness").verdict == Verdict::no);
    CHECK(line(tight, "pinch_thickness").against->value == Approx(11.7));
    CHECK(tight.find("squeeze_force") != nullptr);
  }
}

TEST_CASE("A flat nose is not cleared, and its nominal stretch is that of its corners",
          "[unit][screening]")
{
  Case c                        = cleared();
  c.fixture.plunger.nose_radius = 10;
  const Screening screening     = screen(c);
  CHECK(names(screening, "corners of the flat nose"));
  // ASME BPVC IX QW-466.1: t / (A + t), here 10 / 30 about the corners; were the nose a
  // half round, 10 / 50.
  CHECK(screening.find("nominal_elongation")->value == Approx(1. / 3));
  CHECK(*screening.find("nominal_elongation")->low == Approx(0.2));
  CHECK(*screening.find("outer_elongation")->low <= Approx(0.2));
  // Whether a metal of 25 % bears the corners is not known; one of 15 % bears neither.
  c.material.elongation = 0.25;
  CHECK(screen(c).find("nominal_elongation")->verdict == Verdict::close);
  c.material.elongation = 0.15;
  CHECK(screen(c).find("nominal_elongation")->verdict == Verdict::no);
  // A round nose is wrapped: more than the nominal stretch is certain.
  CHECK(*screen(cleared()).find("outer_elongation")->low > 0.21);
}

TEST_CASE("No ram is cleared for ends that touch the frame", "[unit][screening]")
{
  Case c          = cleared();
  c.fixture.frame = {80, 1.5, 1.5, 10, 1};
  CHECK(line(screen(c), "peak_force").verdict == Verdict::ok);
  // A pass of such a coupon took 63.6 kN where the band ends at 31 kN.
  c.coupon.length             = 180;
  c.ram.capacity              = 1e6;
  const Screening   screening = screen(c);
  const ScreenLine &force     = line(screening, "peak_force");
  CHECK(force.verdict == Verdict::close);
  CHECK_FALSE(std::isfinite(*force.high));
  CHECK_FALSE(std::isfinite(*line(screening, "shoulder_line_load").high));
  for (const ForcePoint &point : screening.force)
    CHECK(std::isfinite(point.force.high));
}
