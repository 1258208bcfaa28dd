// Verdicts on made-up records: every outcome is reached, and nothing is called a jam
// without evidence. All samples are invented.

#include "solver/pass/findings.h"
#include "tests/reference_case.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace throughbend;

namespace
{
bool says(const std::string &text, const std::string &word)
{
  return text.find(word) != std::string::npos;
}

/// A push at `travel` with the legs at `angle`, held by plunger and both shoulders.
PassSample pushing(double travel, double force, double angle)
{
  PassSample sample;
  sample.travel    = travel;
  sample.ram_force = force;
  sample.left = sample.right = {angle, 78, -5};
  sample.left.tip_x          = -78;
  const auto press           = [&](ToolRole role, double normal)
  { sample.tool(role).normal = normal; };
  press(ToolRole::plunger, force);
  press(ToolRole::left_shoulder, force / 2);
  press(ToolRole::right_shoulder, force / 2);
  return sample;
}

/// A record whose force rises by `slope` [N/mm] up to `travel`.
std::vector<PassSample> rising(double travel, double force, double slope, double angle)
{
  std::vector<PassSample> samples;
  for (double back = 10; back > -0.1; back -= 0.5)
    samples.push_back(pushing(travel - back, force - slope * back, angle));
  return samples;
}

/// R with a coupon too thick for the 11.6 mm beside the plunger.
Case too_thick()
{
  Case c             = reference_case();
  c.coupon.thickness = 12.5;
  return c;
}

/// R with a coupon that is longer than the plates are apart.
Case framed()
{
  Case c          = reference_case();
  c.coupon.length = 180;
  c.fixture.frame = {80, 1.5, 1.5, 10, 1};
  return c;
}

std::vector<PassSample> hooked_on(ToolRole frame, double tip_x)
{
  auto        samples     = rising(20, 60e3, 2000, 25);
  PassSample &last        = samples.back();
  last.right.tip_x        = tip_x;
  last.left.tip_x         = -tip_x;
  last.tool(frame).normal = 20e3;
  return samples;
}
} // namespace

TEST_CASE("Both ends past the shoulders with legs bent is through", "[unit][findings]")
{
  auto samples = rising(92, 3e3, -100, 88.5);
  samples.insert(samples.begin(), pushing(40, 29.8e3, 55));
  samples.back().left.tip_y = samples.back().right.tip_y = -41; // walls end at -40
  const Finding finding = decide(reference_case(), samples, StopReason::out);
  CHECK(finding.outcome == Outcome::through);
  CHECK_FALSE(finding.jam.has_value());
  CHECK(finding.travel == 92);
  CHECK(says(finding.evidence, "88.5"));
  CHECK(says(finding.evidence, "29.8 kN")); // the largest force, not the last
  CHECK(says(finding.evidence, "Both ends are past"));

  samples.back().left.tip_y = -39;
  CHECK(
      says(decide(reference_case(), samples, StopReason::out).evidence, "One end is past"));
  samples.back().right.tip_y = -39;
  CHECK(says(decide(reference_case(), samples, StopReason::out).evidence,
             "No force is left"));
}

TEST_CASE("A coupon that leaves the shoulders unbent has dropped", "[unit][findings]")
{
  auto samples          = rising(30, 200, -10, 20);
  samples.back().left   = {62, -40, -60};
  const Finding finding = decide(reference_case(), samples, StopReason::out);
  CHECK(finding.outcome == Outcome::dropped); // one straight leg is enough
  CHECK_FALSE(finding.jam.has_value());
}

TEST_CASE("A ram that runs out of force while the coupon bends freely is over capacity",
          "[unit][findings]")
{
  Case c                = reference_case();
  c.ram.capacity        = 20e3;
  const Finding finding = decide(c, rising(15, 20e3, 300, 25), StopReason::force_limit);
  CHECK(finding.outcome == Outcome::over_capacity);
  CHECK_FALSE(finding.jam.has_value());
  CHECK(finding.force == 20e3);
  CHECK(says(finding.evidence, "20.0 kN"));
}

TEST_CASE(
    "A ram that runs out of force before a leg that will not fit says what lies ahead",
    "[unit][findings]")
{
  Case c                = too_thick();
  c.ram.capacity        = 60e3;
  const Finding finding = decide(c, rising(8, 60e3, 3000, 12), StopReason::force_limit);
  CHECK(finding.outcome == Outcome::over_capacity); // no leg is in the gap yet
  CHECK_FALSE(finding.jam.has_value());
  REQUIRE(finding.ahead.has_value());
  CHECK(*finding.ahead == JamKind::squeezed);
  CHECK(says(finding.evidence, "12.50 mm"));
  CHECK(says(finding.evidence, "11.60 mm")); // (63.2 - 40) / 2
  CHECK_FALSE(says(finding.evidence, "nothing but the bending"));

  c.coupon.thickness = 11.5; // fits
  const Finding fits = decide(c, rising(8, 60e3, 3000, 12), StopReason::force_limit);
  CHECK_FALSE(fits.ahead.has_value());
  CHECK(says(fits.evidence, "nothing but the bending"));
}

TEST_CASE("A finding's account reads in US units too", "[unit][findings]")
{
  Case c                  = too_thick();
  c.ram.capacity          = 80e3;
  const Finding     jam   = decide(c, rising(62, 80e3, 9000, 80), StopReason::force_limit);
  const std::string words = jam.account.text(UnitSystem::us);
  // By hand: 12.5 / 25.4, 11.6 / 25.4; 9 kN/mm = 9 * 25.4 / 4.44822 kip/in; 80 / 4.44822.
  CHECK(says(words, "0.492 in"));
  CHECK(says(words, "0.457 in"));
  CHECK(says(words, "51.4 kip per in"));
  CHECK(says(words, "18.0 kip"));
  CHECK_FALSE(says(words, " mm"));
  CHECK_FALSE(says(words, " kN"));
  CHECK(jam.account.text(UnitSystem::metric) == jam.evidence);
}

TEST_CASE("A ram that runs out of force on a wedged leg reports the jam and the ram",
          "[unit][findings]")
{
  Case c                = too_thick();
  c.ram.capacity        = 80e3;
  const Finding finding = decide(c, rising(62, 80e3, 9000, 80), StopReason::force_limit);
  CHECK(finding.outcome == Outcome::jammed);
  REQUIRE(finding.jam.has_value());
  CHECK(*finding.jam == JamKind::squeezed);
  CHECK_FALSE(finding.where.empty());
  CHECK(says(finding.evidence, "11.60 mm")); // (63.2 - 40) / 2
  CHECK(says(finding.evidence, "80.0 kN"));
}

TEST_CASE("A stop between plunger and shoulder with the force climbing is a squeeze",
          "[unit][findings]")
{
  const Finding finding =
      decide(too_thick(), rising(62, 90e3, 9000, 80), StopReason::stuck);
  CHECK(finding.outcome == Outcome::jammed);
  REQUIRE(finding.jam.has_value());
  CHECK(*finding.jam == JamKind::squeezed);
}

TEST_CASE("The side that is squeezed harder is named", "[unit][findings]")
{
  auto samples                                         = rising(62, 90e3, 9000, 80);
  samples.back().tool(ToolRole::left_shoulder).normal  = 90e3;
  samples.back().tool(ToolRole::right_shoulder).normal = 10e3;
  CHECK(says(decide(too_thick(), samples, StopReason::stuck).where, "left"));
  samples.back().tool(ToolRole::left_shoulder).normal  = 10e3;
  samples.back().tool(ToolRole::right_shoulder).normal = 90e3;
  const std::string where = decide(too_thick(), samples, StopReason::stuck).where;
  CHECK(says(where, "right"));
  CHECK_FALSE(says(where, "left"));
  // As hard as the other to within half: both.
  samples.back().tool(ToolRole::left_shoulder).normal = 70e3;
  const std::string both = decide(too_thick(), samples, StopReason::stuck).where;
  CHECK_FALSE(says(both, "left"));
  CHECK_FALSE(says(both, "right"));
}

TEST_CASE("An end that bears on the frame's edge is hooked there", "[unit][findings]")
{
  for (const ToolRole frame : {ToolRole::left_frame, ToolRole::right_frame})
  {
    const Finding finding = decide(framed(), hooked_on(frame, 88), StopReason::stuck);
    CHECK(finding.outcome == Outcome::jammed);
    REQUIRE(finding.jam.has_value());
    CHECK(*finding.jam == JamKind::hooked);
    CHECK(says(finding.where, frame == ToolRole::left_frame ? "left" : "right"));
    CHECK(says(finding.evidence, "8.0 mm"));
    CHECK(says(finding.evidence, "20.0 kN"));
  }
}

TEST_CASE("Both plates are named when both ends are hooked", "[unit][findings]")
{
  auto samples                                      = hooked_on(ToolRole::left_frame, 88);
  samples.back().tool(ToolRole::right_frame).normal = 20e3;
  CHECK(decide(framed(), samples, StopReason::stuck).where == "both frame plates");
}

TEST_CASE("A ram that runs out of force on a hooked end reports both", "[unit][findings]")
{
  Case c         = framed();
  c.ram.capacity = 60e3;
  const Finding finding =
      decide(c, hooked_on(ToolRole::right_frame, 88), StopReason::force_limit);
  CHECK(finding.outcome == Outcome::jammed);
  CHECK(says(finding.evidence, "60.0 kN"));
}

TEST_CASE("A stop without evidence is undecided, never a jam", "[unit][findings]")
{
  const auto undecided = [](const Case &c, const std::vector<PassSample> &samples)
  {
    const Finding finding = decide(c, samples, StopReason::stuck);
    CHECK(finding.outcome == Outcome::undecided);
    CHECK_FALSE(finding.jam.has_value());
    CHECK_FALSE(finding.evidence.empty());
  };
  // A coupon that fits, with the force climbing steeply: numbers, not a jam.
  undecided(reference_case(), rising(62, 90e3, 9000, 80));
  // A thick one early in the bend, where the room is still large.
  undecided(too_thick(), rising(8, 60e3, 3000, 12));
  // A thick one whose force falls.
  undecided(too_thick(), rising(62, 40e3, -500, 80));
  // A thick one that touches the plunger only.
  auto loose                                         = rising(62, 90e3, 9000, 80);
  loose.back().tool(ToolRole::left_shoulder).normal  = 0;
  loose.back().tool(ToolRole::right_shoulder).normal = 0;
  undecided(too_thick(), loose);
  // An end past the plate that bears on nothing, and one that bears but has come free.
  auto past                                      = hooked_on(ToolRole::right_frame, 88);
  past.back().tool(ToolRole::right_frame).normal = 0;
  undecided(framed(), past);
  undecided(framed(), hooked_on(ToolRole::right_frame, 79));
}

TEST_CASE("The end of the stroke with the coupon still in is stroke-out",
          "[unit][findings]")
{
  Case c                = reference_case();
  c.ram.stroke          = 50;
  const Finding finding = decide(c, rising(50, 25e3, 100, 70), StopReason::stroke_end);
  CHECK(finding.outcome == Outcome::stroke_out);
  CHECK_FALSE(finding.jam.has_value());
  CHECK(says(finding.evidence, "50.0 mm"));
}

TEST_CASE("Too many steps and a breakdown are undecided, whatever the force does",
          "[unit][findings]")
{
  for (const StopReason reason : {StopReason::step_limit, StopReason::failed})
    for (const Case &c : {reference_case(), too_thick(), framed()})
    {
      const Finding finding = decide(c, rising(62, 90e3, 9000, 80), reason);
      CHECK(finding.outcome == Outcome::undecided);
      CHECK_FALSE(finding.jam.has_value());
      CHECK_FALSE(finding.evidence.empty());
    }
}

TEST_CASE("A pass without a single step is undecided", "[unit][findings]")
{
  for (const StopReason reason :
       {StopReason::out, StopReason::force_limit, StopReason::stuck, StopReason::failed})
    CHECK(decide(too_thick(), {}, reason).outcome == Outcome::undecided);
  CHECK_FALSE(jam_evidence(too_thick(), {}).has_value());
}
