// Verdicts on made-up records: every outcome is reached, and nothing is called a jam
// without evidence. All samples are invented. Words are asked for in test_outcome_words.

#include "solver/outcome/exit.h"
#include "solver/outcome/findings.h"
#include "solver/outcome/hold.h"
#include "solver/setup/force_scale.h"
#include "solver/setup/set_up.h"
#include "tests/support/figures.h"
#include "tests/support/made_up_records.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace throughbend;

namespace
{
using Measure = Evidence::Measure;

auto are(const std::vector<double> &values)
{
  return Catch::Matchers::Approx(values);
}

/// What is told before the events, which follow the finding.
std::vector<double> first(std::size_t n, std::vector<double> values)
{
  values.resize(std::min(n, values.size()));
  return values;
}
} // namespace

TEST_CASE("Both ends past the shoulders with legs bent is through", "[unit][findings]")
{
  auto samples = rising(92, 3e3, -100, 88.5);
  samples.insert(samples.begin(), pushing(40, 29.8e3, 55));
  samples.back().left.tip_y = samples.back().right.tip_y = -41; // walls end at -40
  const Finding finding = decide(set_up(reference_case()), samples, StopReason::out);
  CHECK(finding.outcome == Outcome::through);
  CHECK_FALSE(finding.jam.has_value());
  CHECK(finding.travel == 92);
  CHECK_THAT(figures(finding.account, Measure::angle), are({88.5}));
  // The largest force, not the last.
  CHECK_THAT(figures(finding.account, Measure::force), are({29.8e3}));
}

TEST_CASE(
    "A coupon that is out just before the end of the stroke, or all but out there, is "
    "a close finding",
    "[unit][findings]")
{
  // figure_bands.md: the travel differs by up to 0.4 mm between meshes of a 10 mm coupon.
  auto samples = rising(92, 3e3, -100, 88.5);
  samples.insert(samples.begin(), pushing(40, 29.8e3, 55));
  samples.back().left.tip_y = samples.back().right.tip_y = -41; // walls end at -40
  const auto found = [&](double stroke, StopReason reason)
  {
    Case c       = reference_case();
    c.ram.stroke = stroke;
    return decide(set_up(c), samples, reason);
  };
  CHECK(found(95, StopReason::out).close.empty());
  const Finding just = found(92.3, StopReason::out);
  CHECK(just.outcome == Outcome::through);
  CHECK(just.close == "the numerical error of the travel");
  CHECK(has(just.account.text(UnitSystem::metric), "0.30 mm of the stroke are left"));
  samples.back().left.tip_y = samples.back().right.tip_y = -39.7;
  const Finding all_but = found(92, StopReason::stroke_end);
  CHECK(all_but.outcome == Outcome::stroke_out);
  CHECK_FALSE(all_but.close.empty());
  samples.back().left.tip_y = samples.back().right.tip_y = -30;
  CHECK(found(92, StopReason::stroke_end).close.empty());
}

TEST_CASE("The capacity is close above a force that finer cells would raise",
          "[unit][findings]")
{
  // ironing_series.md: the force that irons a leg is up to 6 % larger than on the standard
  // mesh; that of a plain bend by no more than 2 %.
  const auto found = [](double thickness, double capacity)
  {
    Case c                    = reference_case();
    c.ram.capacity            = capacity;
    c.coupon.thickness        = thickness;
    auto samples              = rising(92, 50e3, 0, 88.5);
    samples.back().left.tip_y = samples.back().right.tip_y = -41;
    return decide(set_up(c), samples, StopReason::out);
  };
  const double  plain = 9, squeezed = 12.5; // (63.2 - 40) / 2 = 11.6 mm of room
  const Finding easy = found(plain, 52e3), ironed = found(squeezed, 52e3);
  CHECK(easy.close.empty());
  REQUIRE(!ironed.events.empty());
  CHECK(ironed.events.front().kind == EventKind::ironed);
  CHECK_FALSE(ironed.close.empty());
  CHECK(has(ironed.account.text(UnitSystem::metric), "numerical error of 6"));
  CHECK(found(squeezed, 54e3).close.empty()); // 8 % away
}

TEST_CASE("The finding is close where a leg stands at the angle that decides it",
          "[unit][findings]")
{
  const auto left_at = [](const double angle, const StopReason reason)
  {
    auto samples               = rising(92, 3e3, -100, 88.5);
    samples.back().left        = {angle, -40, -41};
    samples.back().right.tip_y = -41;
    for (ToolContact &tool : samples.back().tools)
      tool.normal = 0;
    return decide(set_up(reference_case()), samples, reason);
  };
  CHECK(left_at(46, StopReason::out).outcome == Outcome::through);
  CHECK(left_at(46, StopReason::out).close == "the angle of the legs");
  CHECK(left_at(44, StopReason::out).outcome == Outcome::dropped);
  CHECK(left_at(44, StopReason::out).close == "the angle of the legs");
  CHECK(left_at(60, StopReason::out).close.empty());
  CHECK(left_at(20, StopReason::out).close.empty());
}

TEST_CASE("A coupon whose legs do not stand where the ram stops is part bent",
          "[unit][findings]")
{
  Case c         = reference_case();
  c.ram.capacity = 80e3;
  const auto at  = [&](const double angle)
  {
    return decide(set_up(c), rising(30, 80e3, 3000, angle), StopReason::force_limit)
        .part_bent;
  };
  CHECK(at(20));
  CHECK(at(70));
  CHECK_FALSE(at(80));
  CHECK_FALSE(
      decide(set_up(c), rising(30, 8e3, 100, 60), StopReason::out).part_bent); // is out
}

TEST_CASE("A coupon that leaves the shoulders unbent has dropped", "[unit][findings]")
{
  auto samples          = rising(30, 200, -10, 20);
  samples.back().left   = {62, -40, -60};
  const Finding finding = decide(set_up(reference_case()), samples, StopReason::out);
  CHECK(finding.outcome == Outcome::dropped); // one straight leg is enough
  CHECK_FALSE(finding.jam.has_value());
  // (62 - 20) / 2 and (62 + 20) / 2 by hand: a coupon that turned is told from one that did
  // not.
  CHECK_THAT(figures(finding.account, Measure::angle), are({21, 41, 62, 20}));
  samples.back().left  = {24, -40, -60}; // turned by 2 deg: not told
  const Finding hardly = decide(set_up(reference_case()), samples, StopReason::out);
  CHECK(hardly.outcome == Outcome::dropped);
  CHECK_THAT(figures(hardly.account, Measure::angle), are({24, 20}));
}

TEST_CASE("A coupon that stands on end between the shoulders at the end of the stroke has "
          "dropped",
          "[unit][findings]")
{
  auto samples          = rising(130, 30, 0, 20);
  samples.back().left   = {-89, -20, 40};
  samples.back().right  = {89.4, 20, -60}; // past its shoulder, whose wall ends at -40
  const Finding finding = decide(set_up(reference_case()), samples, StopReason::stroke_end);
  CHECK(finding.outcome == Outcome::dropped);
  // (89.4 + 89) / 2 and (89.4 - 89) / 2 by hand.
  CHECK_THAT(figures(finding.account, Measure::angle), are({89.2, 0.2, -89, 89.4}));
  CHECK(has(finding.account.text(UnitSystem::metric), "More stroke does not bend it"));
  CHECK(has(finding.verdict.text(UnitSystem::metric), "hangs between the shoulders"));

  samples.back().left  = {-89, -20, 40};
  samples.back().right = {6, 20, -60}; // lies over a shoulder, bent the other way
  CHECK(decide(set_up(reference_case()), samples, StopReason::stroke_end).outcome ==
        Outcome::stroke_out);

  samples.back().right = {89.4, 20, -60};
  samples.back().left  = {62, -40, 40}; // bends, and one end is out: more stroke may do
  CHECK(decide(set_up(reference_case()), samples, StopReason::stroke_end).outcome ==
        Outcome::stroke_out);
}

TEST_CASE("A ram that runs out of force while the coupon bends freely is over capacity",
          "[unit][findings]")
{
  Case c         = reference_case();
  c.ram.capacity = 20e3;
  const Finding finding =
      decide(set_up(c), rising(15, 20e3, 300, 25), StopReason::force_limit);
  CHECK(finding.outcome == Outcome::over_capacity);
  CHECK_FALSE(finding.jam.has_value());
  CHECK(finding.force == 20e3);
  CHECK_THAT(figures(finding.account, Measure::force), are({20e3}));
}

TEST_CASE(
    "A ram that runs out of force before a leg that will not fit says what lies ahead",
    "[unit][findings]")
{
  Case c         = too_thick();
  c.ram.capacity = 60e3;
  const Finding finding =
      decide(set_up(c), rising(8, 60e3, 3000, 12), StopReason::force_limit);
  CHECK(finding.outcome == Outcome::over_capacity); // no leg is in the gap yet
  CHECK_FALSE(finding.held.has_value());
  // The thickness, and (63.2 - 40) / 2.
  CHECK_THAT(figures(finding.account, Measure::room), are({12.5, 11.6}));

  c.coupon.thickness = 11.5; // fits
  const Finding fits =
      decide(set_up(c), rising(8, 60e3, 3000, 12), StopReason::force_limit);
  CHECK(fits.outcome == Outcome::over_capacity);
  CHECK(figures(fits.account, Measure::room).empty());
}

TEST_CASE("What holds a coupon where the ram stops is said, and is no jam",
          "[unit][findings]")
{
  Case c         = too_thick();
  c.ram.capacity = 80e3;
  const Finding squeeze =
      decide(set_up(c), rising(62, 80e3, 9000, 80), StopReason::force_limit);
  CHECK(squeeze.outcome == Outcome::over_capacity);
  CHECK_FALSE(squeeze.jam.has_value());
  REQUIRE(squeeze.held.has_value());
  CHECK(*squeeze.held == JamKind::squeezed);
  CHECK_FALSE(squeeze.beyond.has_value());
  // (63.2 - 40) / 2; 0.2 times 12.5 is what the force has risen over.
  CHECK_THAT(figures(squeeze.account, Measure::room), are({12.5, 11.6}));
  CHECK_THAT(first(1, figures(squeeze.account, Measure::force)), are({80e3}));
  CHECK_THAT(figures(squeeze.account, Measure::force_rise), are({9000}));
  CHECK_THAT(first(1, figures(squeeze.account, Measure::length)), are({2.5}));

  const std::string words = squeeze.account.text(UnitSystem::us);
  // By hand: 12.5 / 25.4, 11.6 / 25.4; 9 kN/mm = 9 * 25.4 / 4.44822 kip/in; 80 / 4.44822.
  CHECK(has(words, "0.492 in"));
  CHECK(has(words, "0.457 in"));
  CHECK(has(words, "51.4 kip per in"));
  CHECK(has(words, "18.0 kip"));
  CHECK_FALSE(has(words, " mm"));
  CHECK_FALSE(has(words, " kN"));
  CHECK(squeeze.account.text(UnitSystem::metric) == squeeze.evidence);

  c              = framed();
  c.ram.capacity = 60e3;
  const Finding hooked =
      decide(set_up(c), hooked_on(tool_at::right_frame, 88), StopReason::force_limit);
  CHECK(hooked.outcome == Outcome::over_capacity);
  REQUIRE(hooked.held.has_value());
  CHECK(*hooked.held == JamKind::hooked);
  CHECK(has(hooked.where, "right"));
}

TEST_CASE("What a stronger ram would do stands beside over-capacity", "[unit][findings]")
{
  Case c            = too_thick();
  c.ram.capacity    = 80e3;
  const auto before = rising(62, 80e3, 9000, 80);
  auto       on     = rising(72, 110e3, 3000, 86);
  const auto look   = [&](StopReason reason) {
    return decide(set_up(c), before, StopReason::force_limit, BeyondRecord{on, reason});
  };

  on.push_back(pushing(110, 4e3, 88));
  on.back().left.tip_y = on.back().right.tip_y = -41;
  on[3].tool(tool_at::right_shoulder).normal   = 222e3;
  on[5].outer_strain                           = std::log(1.31);
  const Finding through                        = look(StopReason::out);
  CHECK(through.outcome == Outcome::over_capacity);
  REQUIRE(through.beyond.has_value());
  CHECK(through.beyond->end == BeyondEnd::through);
  CHECK(through.beyond->force == Approx(110e3)); // not the last one
  CHECK(through.beyond->force_at == Approx(72));
  CHECK(through.beyond->travel == 110);
  CHECK(through.beyond->face_strain == Approx(std::log(1.31)));
  auto body                              = on;
  body[6].width.emplace().largest_strain = std::log(1.39); // at an edge
  CHECK(decide(set_up(c), before, StopReason::force_limit,
               BeyondRecord{body, StopReason::out})
            .beyond->face_strain == Approx(std::log(1.39)));
  // The ram's, the largest beyond, and what it does to a shoulder.
  CHECK_THAT(first(3, figures(through.account, Measure::force)), are({80e3, 110e3, 222e3}));
  CHECK(has(through.evidence, "31.0 %")); // and to the coupon
  // The leg is ironed, and 6 % more is what finer cells may ask for (ironing_series.md).
  CHECK_THAT(figures(through.verdict, Measure::force), are({80e3, 110e3, 116.6e3}));
  CHECK(has(through.evidence, "A leg is ironed on the way"));
  CHECK(through.travel == 62); // where the bench's ram stops
  CHECK(through.force == 80e3);

  // The search stops at the capacity to 0.2 %; less than that does not push it through.
  auto hardly = rising(72, 79.9e3, 0, 86);
  hardly.push_back(on.back());
  CHECK(decide(set_up(c), before, StopReason::force_limit,
               BeyondRecord{hardly, StopReason::out})
            .beyond->force == 80e3);
  CHECK(look(StopReason::stroke_end).beyond->end == BeyondEnd::stroke_end);
  for (const StopReason lost :
       {StopReason::stuck, StopReason::interrupted, StopReason::step_limit})
  {
    const Finding open = look(lost);
    CHECK(open.outcome == Outcome::over_capacity);
    CHECK(open.beyond->end == BeyondEnd::not_known);
    CHECK_THAT(figures(open.verdict, Measure::force), are({80e3})); // the ram's alone
  }
  on.back().left.angle = 30;
  CHECK(look(StopReason::out).beyond->end == BeyondEnd::dropped);
}

TEST_CASE("A coupon that no force up to the wrecking one moves is jammed",
          "[unit][findings]")
{
  Case c               = too_thick();
  c.ram.capacity       = 80e3;
  const double  wreck  = force_scale(c).wrecking;
  const auto    before = rising(62, 80e3, 9000, 80);
  const auto    on     = rising(64, wreck, 5e5, 82);
  const Finding jam    = decide(set_up(c), before, StopReason::force_limit,
                                BeyondRecord{on, StopReason::force_limit});
  CHECK(jam.outcome == Outcome::jammed);
  REQUIRE(jam.jam.has_value());
  CHECK(*jam.jam == JamKind::squeezed);
  CHECK_FALSE(jam.held.has_value());
  // The ram's own limit as well.
  CHECK_THAT(first(2, figures(jam.account, Measure::force)), are({wreck, 80e3}));

  // With a ram that strong there is nothing beyond.
  c.ram.capacity       = 2 * wreck;
  const Finding strong = decide(set_up(c), on, StopReason::force_limit);
  CHECK(strong.outcome == Outcome::jammed);
  CHECK(*strong.jam == JamKind::squeezed);
  CHECK_THAT(first(1, figures(strong.account, Measure::force)), are({wreck}));
}

TEST_CASE("The wrecking force is twenty plain passes' peaks", "[unit][findings]")
{
  // R by hand: nominal strain 10 / 50 = 0.2, flow stress at 0.1: 250 + 200 (1 - exp(-1.2))
  // + 150 * 0.1 = 404.76 MPa; 2 / sqrt(3) * 404.76 * 100 * 38 / 63.2 = 28.10 kN. Its passes
  // peak at 29.8 kN (785 N/mm in the reference, tests/support/reference_case.h).
  CHECK(force_scale(reference_case()).plain_peak == Approx(28.10e3).epsilon(0.001));
  CHECK(force_scale(reference_case()).plain_peak == Approx(785. * 38).epsilon(0.1));
  CHECK(force_scale(reference_case()).wrecking ==
        Approx(20 * force_scale(reference_case()).plain_peak));
}

TEST_CASE("The side that is squeezed harder is named", "[unit][findings]")
{
  auto       samples = rising(62, 90e3, 9000, 80);
  const auto where   = [&](double left, double right)
  {
    samples.back().tool(tool_at::left_shoulder).normal  = left;
    samples.back().tool(tool_at::right_shoulder).normal = right;
    const auto hold = what_holds(set_up(too_thick()), samples);
    REQUIRE(hold.has_value());
    CHECK(hold->kind == JamKind::squeezed);
    return hold->where;
  };
  CHECK(where(90e3, 10e3) == "left leg");
  CHECK(where(10e3, 90e3) == "right leg");
  CHECK(where(10e3, 14e3) == "both legs"); // as hard as the other to within half
}

TEST_CASE("An end that bears on the frame's edge is hooked there", "[unit][findings]")
{
  for (const ToolPlace frame : {tool_at::left_frame, tool_at::right_frame})
  {
    const auto hold = what_holds(set_up(framed()), hooked_on(frame, 88));
    REQUIRE(hold.has_value());
    CHECK(hold->kind == JamKind::hooked);
    CHECK(has(hold->where, frame == tool_at::left_frame ? "left" : "right"));
    CHECK_THAT(figures(hold->account, Measure::length), are({8})); // 88 - 80
    CHECK_THAT(figures(hold->account, Measure::force), are({20e3}));
  }
  auto both                                     = hooked_on(tool_at::left_frame, 88);
  both.back().tool(tool_at::right_frame).normal = 20e3;
  CHECK(what_holds(set_up(framed()), both)->where == "both frame plates");

  // How far each of them reaches, and what it bears.
  both.back().left.tip_x                       = -93;
  both.back().right.tip_x                      = 88;
  both.back().tool(tool_at::left_frame).normal = 22e3;
  const auto two                               = what_holds(set_up(framed()), both);
  CHECK_THAT(figures(two->account, Measure::length), are({13, 8}));
  CHECK_THAT(figures(two->account, Measure::force), are({22e3, 20e3}));
}

TEST_CASE(
    "A computation that finds no further step is undecided, whatever holds the coupon",
    "[unit][findings]")
{
  const Finding squeeze =
      decide(set_up(too_thick()), rising(62, 90e3, 9000, 80), StopReason::stuck);
  CHECK(squeeze.outcome == Outcome::undecided);
  CHECK_FALSE(squeeze.jam.has_value());
  // What holds it is told all the same.
  CHECK_THAT(figures(squeeze.account, Measure::room), are({12.5, 11.6}));
  CHECK(decide(set_up(framed()), hooked_on(tool_at::right_frame, 88), StopReason::stuck)
            .outcome == Outcome::undecided);
}

TEST_CASE("Without evidence nothing is said to hold the coupon", "[unit][findings]")
{
  const auto free = [](const Case &c, const std::vector<PassSample> &samples)
  {
    CHECK_FALSE(what_holds(set_up(c), samples).has_value());
    const Finding finding = decide(set_up(c), samples, StopReason::stuck);
    CHECK(finding.outcome == Outcome::undecided);
    CHECK_FALSE(finding.evidence.empty());
  };
  // A coupon that fits, with the force climbing steeply: numbers, not a squeeze.
  free(reference_case(), rising(62, 90e3, 9000, 80));
  // A thick one early in the bend, where the room is still large.
  free(too_thick(), rising(8, 60e3, 3000, 12));
  // A thick one whose force falls.
  free(too_thick(), rising(62, 40e3, -500, 80));
  // A thick one that touches the plunger only.
  auto loose                                        = rising(62, 90e3, 9000, 80);
  loose.back().tool(tool_at::left_shoulder).normal  = 0;
  loose.back().tool(tool_at::right_shoulder).normal = 0;
  free(too_thick(), loose);
  // An end past the plate that bears on nothing, and one that bears but has come free.
  auto past                                     = hooked_on(tool_at::right_frame, 88);
  past.back().tool(tool_at::right_frame).normal = 0;
  free(framed(), past);
  free(framed(), hooked_on(tool_at::right_frame, 79));
}

TEST_CASE("The end of the stroke with the coupon still in is stroke-out",
          "[unit][findings]")
{
  Case c       = reference_case();
  c.ram.stroke = 50;
  const Finding finding =
      decide(set_up(c), rising(50, 25e3, 100, 70), StopReason::stroke_end);
  CHECK(finding.outcome == Outcome::stroke_out);
  CHECK_FALSE(finding.jam.has_value());
  // The stroke, and how far the ends at -5 mm are above the last tangent at -40 mm.
  CHECK_THAT(figures(finding.account, Measure::length), are({50, 35}));

  // One end out, the other 65 mm above the last tangent at -40 mm.
  auto off               = rising(50, 5e3, -100, 80);
  off.back().left.tip_y  = -45;
  off.back().right.tip_y = 25;
  const Finding one      = decide(set_up(c), off, StopReason::stroke_end);
  CHECK(one.outcome == Outcome::stroke_out);
  CHECK_THAT(figures(one.account, Measure::length), are({50, 65}));
}

TEST_CASE("Too many steps and an interrupt are undecided, whatever the force does",
          "[unit][findings]")
{
  for (const StopReason reason : {StopReason::step_limit, StopReason::interrupted})
    for (const Case &c : {reference_case(), too_thick(), framed()})
    {
      const Finding finding = decide(set_up(c), rising(62, 90e3, 9000, 80), reason);
      CHECK(finding.outcome == Outcome::undecided);
      CHECK_FALSE(finding.jam.has_value());
      CHECK_FALSE(finding.evidence.empty());
    }
}

TEST_CASE("A pass without a single step is undecided", "[unit][findings]")
{
  for (const StopReason reason :
       {StopReason::out, StopReason::force_limit, StopReason::stuck})
    CHECK(decide(set_up(too_thick()), {}, reason).outcome == Outcome::undecided);
  CHECK_FALSE(what_holds(set_up(too_thick()), {}).has_value());
}
