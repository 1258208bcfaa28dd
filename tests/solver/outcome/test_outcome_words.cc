// The words of findings: a row for each outcome, jam, end beyond the capacity, event and
// reason to stop. Here alone a test depends on how these are put; elsewhere tests ask for
// figures and enums. All findings and records are invented.

#include "solver/outcome/findings.h"
#include "solver/outcome/metal_answer.h"
#include "solver/outcome/verdict.h"
#include "solver/setup/force_scale.h"
#include "solver/setup/set_up.h"
#include "tests/support/made_up_records.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>

using namespace throughbend;

namespace
{
using Words = std::vector<std::string>;

void check_words(const std::string &text, const Words &there, const Words &absent = {})
{
  INFO(text);
  for (const std::string &words : there)
  {
    INFO(words);
    CHECK(has(text, words));
  }
  for (const std::string &words : absent)
  {
    INFO(words);
    CHECK_FALSE(has(text, words));
  }
}

/// At 45.2 mm (1.780 in) of travel and 61 kN (13.7 kip): 45.2 / 25.4, 61 / 4.44822.
Finding made_up(const Outcome outcome)
{
  Finding finding;
  finding.outcome = outcome;
  finding.travel  = 45.2;
  finding.force   = 61e3;
  finding.where   = "left shoulder";
  return finding;
}

Finding held(const Outcome outcome, const JamKind kind)
{
  Finding finding                                           = made_up(outcome);
  (outcome == Outcome::jammed ? finding.jam : finding.held) = kind;
  return finding;
}

/// 105 kN (23.6 kip) beyond the ram's capacity.
Finding beyond(const BeyondEnd end, const double band = 0)
{
  Finding finding            = made_up(Outcome::over_capacity);
  finding.beyond             = BeyondCapacity{};
  finding.beyond->end        = end;
  finding.beyond->force      = 105e3;
  finding.beyond->force_band = band;
  return finding;
}

Finding with_event(const EventKind kind)
{
  Finding finding = made_up(Outcome::through);
  finding.events.resize(2);
  finding.events[0].kind = finding.events[1].kind = kind; // named once
  return finding;
}

Finding doubted()
{
  Finding finding          = made_up(Outcome::through);
  finding.accuracy.trust   = Trust::low;
  finding.accuracy.reasons = {Evidence("energy error 2.1 %"), Evidence("another")};
  return finding;
}

Finding close_call()
{
  Finding finding = made_up(Outcome::through);
  finding.close   = "the ripple of the computed ram force";
  return finding;
}

struct VerdictRow
{
  Finding     finding;
  std::string metric, us;
};

/// A record of two legs that are ironed, touch a frame and so on, with `set` at the 40th
/// of its 100 millimetres.
std::vector<PassSample> eventful(const std::function<void(PassSample &)> &set)
{
  std::vector<PassSample> samples;
  for (int travel = 1; travel <= 100; ++travel)
    samples.push_back(pushing(travel, 10e3, travel < 50 ? travel : 85));
  set(samples[39]);
  samples.back().left.tip_y = samples.back().right.tip_y = -41; // last tangent: -40
  return samples;
}

std::string evidence(const Case &c, const std::vector<PassSample> &samples,
                     const StopReason                   reason,
                     const std::optional<BeyondRecord> &more = std::nullopt)
{
  return decide(set_up(c), samples, reason, more).evidence;
}

Case weak(Case c, const double capacity)
{
  c.ram.capacity = capacity;
  return c;
}
} // namespace

TEST_CASE("A verdict says outcome, travel, force and what holds the coupon",
          "[unit][words]")
{
  const std::string over =
      "OVER CAPACITY: the ram reaches its 61.0 kN at 45.2 mm of travel";
  const std::string over_us =
      "OVER CAPACITY: the ram reaches its 13.7 kip at 1.780 in of travel";
  const std::string clear =
      ": the coupon is bent and clear of the shoulders after 45.2 mm of travel.";
  const std::string clear_us =
      ": the coupon is bent and clear of the shoulders after 1.780 in of travel.";
  const std::string still = "JAMMED: the coupon does not move beyond 45.2 mm of travel at "
                            "any force";
  const std::string still_us = "JAMMED: the coupon does not move beyond 1.780 in of travel "
                               "at any force";
  const std::vector<VerdictRow> rows = {
      {made_up(Outcome::through), "THROUGH" + clear, "THROUGH" + clear_us},
      {made_up(Outcome::over_capacity), over + ".", over_us + "."},
      {made_up(Outcome::stroke_out),
       "STROKE OUT: the ram's stroke ends at 45.2 mm of travel with the coupon not yet "
       "through.",
       "STROKE OUT: the ram's stroke ends at 1.780 in of travel with the coupon not yet "
       "through."},
      {made_up(Outcome::dropped),
       "DROPPED: the coupon leaves the shoulders at 45.2 mm of travel, before it is bent "
       "to "
       "a U.",
       "DROPPED: the coupon leaves the shoulders at 1.780 in of travel, before it is bent "
       "to a U."},
      {made_up(Outcome::undecided),
       "UNDECIDED: no finding after 45.2 mm of travel; this says nothing about the coupon.",
       "UNDECIDED: no finding after 1.780 in of travel; this says nothing about the "
       "coupon."},
      {held(Outcome::jammed, JamKind::squeezed),
       still + " (squeezed between plunger and shoulder, left shoulder).",
       still_us + " (squeezed between plunger and shoulder, left shoulder)."},
      {held(Outcome::jammed, JamKind::hooked),
       still + " (hooked on the frame, left shoulder).",
       still_us + " (hooked on the frame, left shoulder)."},
      {held(Outcome::jammed, JamKind::other),
       still + " (neither squeezed nor hooked, left shoulder).",
       still_us + " (neither squeezed nor hooked, left shoulder)."},
      {held(Outcome::over_capacity, JamKind::squeezed),
       over + " (squeezed between plunger and shoulder, left shoulder).",
       over_us + " (squeezed between plunger and shoulder, left shoulder)."},
      {held(Outcome::stroke_out, JamKind::hooked),
       "with the coupon not yet through (hooked on the frame, left shoulder).",
       "1.780 in of travel with the coupon not yet through (hooked"},
      {beyond(BeyondEnd::through), over + "; it would go through with 105 kN.",
       over_us + "; it would go through with 23.6 kip."},
      {beyond(BeyondEnd::through, 11e3),
       over + "; it would go through with 105 kN +- 11.0 kN.",
       over_us + "; it would go through with 23.6 kip +- 2.47 kip."},
      {beyond(BeyondEnd::dropped), over + "; with 105 kN it would drop unbent.",
       over_us + "; with 23.6 kip it would drop unbent."},
      {beyond(BeyondEnd::stroke_end),
       over + "; with 105 kN the stroke would end before it is through.",
       over_us + "; with 23.6 kip the stroke would end before it is through."},
      {beyond(BeyondEnd::wrecked),
       over + "; whether more force would push it through is not known.",
       over_us + "; whether more force would push it through is not known."},
      {beyond(BeyondEnd::not_known),
       over + "; whether more force would push it through is not known.",
       over_us + "; whether more force would push it through is not known."},
      {with_event(EventKind::frame_touched), "THROUGH, frame touched" + clear,
       "THROUGH, frame touched" + clear_us},
      {with_event(EventKind::ironed), "THROUGH, leg ironed" + clear,
       "THROUGH, leg ironed" + clear_us},
      {with_event(EventKind::nose_corner), "THROUGH, nose corner" + clear,
       "THROUGH, nose corner" + clear_us},
      {with_event(EventKind::shoulder_underside), "THROUGH, shoulder underside" + clear,
       "THROUGH, shoulder underside" + clear_us},
      {with_event(EventKind::bent_short), "THROUGH, bent short" + clear,
       "THROUGH, bent short" + clear_us},
      {doubted(), "THROUGH (low accuracy: energy error 2.1 %, and more)" + clear,
       "THROUGH (low accuracy: energy error 2.1 %, and more)" + clear_us},
      {close_call(),
       "THROUGH (close: the ripple of the computed ram force could turn it)" + clear,
       "THROUGH (close: the ripple of the computed ram force could turn it)" + clear_us},
  };
  for (const VerdictRow &row : rows)
  {
    check_words(verdict(row.finding).text(UnitSystem::metric), {row.metric},
                {" in ", "kip"});
    check_words(verdict(row.finding).text(UnitSystem::us), {row.us}, {" mm", " kN"});
  }
}

TEST_CASE("The evidence says where the coupon is and what resists", "[unit][words]")
{
  const Case plain = reference_case();
  auto       out   = rising(92, 3e3, -100, 88.5);
  check_words(evidence(plain, out, StopReason::out),
              {"Both ends are past the shoulders", "the largest ram force on the way was"});

  out.back().left  = {62, -40, -60};
  out.back().right = {20, 78, -5};
  check_words(evidence(plain, out, StopReason::out),
              {"The coupon tipped over to one side by 21.0 deg", "bent by 41.0 deg"},
              {"before it was bent to a U"});
  out.back().left.angle = 24;
  check_words(evidence(plain, out, StopReason::out), {"before it was bent to a U"},
              {"tipped over"});

  const auto early = rising(8, 60e3, 3000, 12);
  check_words(evidence(weak(plain, 60e3), early, StopReason::force_limit),
              {"The ram is at its capacity of 60.0 kN",
               "Nothing but the bending itself resists",
               "What more force would do was not computed"},
              {"squeezed"});
  check_words(evidence(weak(too_thick(), 60e3), early, StopReason::force_limit),
              {"further on it is squeezed"}, {"Nothing but the bending"});
  check_words(evidence(weak(framed(), 60e3), hooked_on(tool_at::right_frame, 88),
                       StopReason::force_limit),
              {"The coupon's end still reaches 8.0 mm past the inside of the plate"});
  const auto squeezed = rising(62, 80e3, 9000, 80);
  check_words(evidence(weak(too_thick(), 80e3), squeezed, StopReason::force_limit),
              {"A leg is 12.50 mm thick where plunger and shoulder leave 11.60 mm"});

  auto up = rising(50, 5e3, -100, 80);
  check_words(evidence(plain, up, StopReason::stroke_end),
              {"The ram is at the end of its stroke", "the higher end is 35.0 mm above"},
              {"one end is past"});
  up.back().left.tip_y = -45;
  check_words(evidence(plain, up, StopReason::stroke_end),
              {"one end is past its shoulder, the other is 35.0 mm above"});
  up.back().right.tip_y = -45;
  check_words(evidence(plain, up, StopReason::stroke_end),
              {"both ends are past the shoulders, which still press on the legs"});
}

TEST_CASE("The evidence says what more force would do", "[unit][words]")
{
  const Case c      = weak(too_thick(), 80e3);
  const auto before = rising(62, 80e3, 9000, 80);
  const auto more   = [&](std::vector<PassSample> on, StopReason reason)
  {
    return evidence(c, before, StopReason::force_limit,
                    BeyondRecord{std::move(on), reason});
  };
  auto on = rising(72, 110e3, 3000, 86);
  check_words(more(on, StopReason::out),
              {"A stronger ram pushes it through; the largest force is 110 kN",
               "On the way one shoulder bears", "the convex face is stretched by"},
              {"not known", "not computed"});
  check_words(more(on, StopReason::stroke_end),
              {"A stronger ram comes to the end of its stroke with the coupon not yet"});
  check_words(more(on, StopReason::stuck),
              {"What more force would do is not known: it was followed up to 110 kN only"});
  check_words(more({}, StopReason::stuck), {"What more force would do is not known."});
  on.back().left.angle = 30;
  check_words(more(on, StopReason::out), {"With a stronger ram the coupon drops unbent"});
  check_words(more(rising(64, force_scale(c).wrecking, 5e5, 82), StopReason::force_limit),
              {"The coupon does not move on at any force up to",
               "twenty times the largest force of a plain pass",
               "The ram stops at its capacity of 80.0 kN"});
}

TEST_CASE("What ends a pass without a finding is said, and nothing else", "[unit][words]")
{
  const auto steep = rising(62, 90e3, 9000, 80);
  const auto said  = [&](StopReason reason, const Case &c = reference_case())
  { return evidence(c, steep, reason); };
  check_words(said(StopReason::interrupted), {"stopped by its user"},
              {"No equilibrium", "broke down"});
  check_words(said(StopReason::step_limit), {"More steps than solver.step_limit allows"},
              {"No equilibrium", "user"});
  check_words(said(StopReason::stuck),
              {"No equilibrium was found", "nothing in the record says what holds"},
              {"user"});
  check_words(said(StopReason::stuck, too_thick()),
              {"Whether more force would push it on is not known. A leg is"});
  check_words(evidence(reference_case(), {}, StopReason::stuck), {"No step was accepted"});

  Case flawed                     = reference_case();
  flawed.weld.width               = 8;
  flawed.weld.bend                = BendKind::root;
  flawed.flaws.each.front().depth = 2;
  auto shut                       = steep;
  for (PassSample &sample : shut)
    sample.flaws = {{0, 0.0101}};
  check_words(evidence(flawed, shut, StopReason::flaw_shut),
              {"The lips of flaw have closed", "overlap by 0.01 mm"});

  auto broken                   = rising(92, 3e3, -100, 88.5);
  broken.back().energy.error    = 0.51;
  broken.back().energy.ram_work = 1e6;
  check_words(evidence(reference_case(), broken, StopReason::out),
              {"The record contradicts itself: energy error 51.0 %", "There is no finding",
               "It would have been: through"});

  auto torn                = rising(92, 3e3, -100, 88.5);
  torn.back().outer_strain = 2.4;
  check_words(evidence(reference_case(), torn, StopReason::out),
              {"The calculated strains are more than metals bear: log strain 2.40",
               "A real coupon tears before that", "There is no finding",
               "Without a tear it would have been: through"});
}

TEST_CASE("The evidence says what a sound pass does not have", "[unit][words]")
{
  const auto said = [](const Case &c, const std::function<void(PassSample &)> &set)
  { return evidence(c, eventful(set), StopReason::out); };
  const auto press = [](ToolPlace place)
  { return [place](PassSample &sample) { sample.tool(place).normal = 5e3; }; };
  const auto nothing = [](PassSample &) {};

  check_words(
      said(framed(), press(tool_at::right_frame)),
      {"From 40.0 mm to 40.0 mm of travel the right end presses on its frame plate, "
       "with up to 5.00 kN on one of them; ram force 10.0 kN before it, 10.0 kN at "
       "most during it."});
  check_words(said(framed(),
                   [](PassSample &sample)
                   {
                     sample.tool(tool_at::left_frame).normal =
                         sample.tool(tool_at::right_frame).normal = 5e3;
                   }),
              {"the ends press on both frame plates"});

  check_words(said(too_thick(), nothing),
              {"both legs are ironed between plunger and shoulder",
               "With finer cells and steps that force is up to 6 % larger"});
  Case body           = too_thick();
  body.mesh.dimension = 3;
  check_words(said(body, nothing), {"larger by an amount that is not known"}, {"6 %"});

  Case sharp                        = reference_case();
  sharp.fixture.plunger.nose_radius = 5;
  check_words(said(sharp,
                   [](PassSample &sample)
                   {
                     sample.wrap                             = 60;
                     sample.tool(tool_at::plunger).line_load = 100;
                   }),
              {"the coupon is bent over a corner of the nose, which is not a half round"});
  check_words(said(reference_case(), [](PassSample &sample)
                   { sample.tool(tool_at::left_shoulder).from_below = 3e3; }),
              {"the coupon presses on the left shoulder from below"});

  auto lost = eventful(nothing);
  for (std::size_t i = 49; i < lost.size(); ++i)
  {
    lost[i].left.angle  = 62;
    lost[i].right.angle = 81;
    if (i >= 89)
      lost[i].tool(tool_at::left_shoulder).normal = 0;
  }
  lost.back().tool(tool_at::right_shoulder).normal = 0;
  check_words(evidence(reference_case(), lost, StopReason::out),
              {"the left end loses its shoulder before the legs stand: it is not a full U",
               "The other shoulder then bears up to"},
              {"clamped"});
  // Both ends between the walls, and nothing on the ram: not an end and another shoulder.
  for (std::size_t i = 49; i < lost.size(); ++i)
  {
    lost[i].left.angle = lost[i].right.angle = 62;
    if (i >= 89 && i + 1 < lost.size())
    {
      lost[i].ram_force = 0;
      lost[i].tool(tool_at::left_shoulder).normal =
          lost[i].tool(tool_at::right_shoulder).normal = 20e3;
      lost[i].tool(tool_at::plunger).normal            = 0;
      lost[i].left.tip_y = lost[i].right.tip_y = -41; // below the walls, which end at -40
    }
  }
  lost.back().ram_force = 0;
  check_words(evidence(reference_case(), lost, StopReason::out),
              {"both ends lose their shoulders before the legs stand",
               "A shoulder then bears up to 20.0 kN",
               "clamped between the shoulders while the ram bears next to nothing"},
              {"The other shoulder"});
}

TEST_CASE("The metal's answer says which metal, its stretch and its limit", "[unit][words]")
{
  Finding through;
  through.outcome = Outcome::through;
  const auto said = [&](const double limit, const Finding &finding)
  {
    Case c                = reference_case();
    c.material.elongation = limit;
    KeyFigures stretched;
    stretched.outer_elongation = stretched.face_elongation = 0.2;
    stretched.outer_strain                                 = std::log1p(0.2);
    return metal_answer(c, finding, stretched, {}, {}).account.text(UnitSystem::metric);
  };
  check_words(said(0.25, through),
              {"The base plate comes closest to its limit: stretched by 20.0 %, its stated "
               "elongation is 25.0 %."});
  check_words(said(0.18, through),
              {"The base plate is beyond its stated limit: stretched by 20.0 %, its stated "
               "elongation is 18.0 %. Expect it to tear."});
  // Where the zone's mean is known and within, a point beyond it is no tear yet.
  const auto with_mean = [&](const double mean)
  {
    Case c                = reference_case();
    c.material.elongation = 0.18;
    KeyFigures stretched;
    stretched.outer_elongation = stretched.face_elongation = 0.2;
    stretched.outer_strain                                 = std::log1p(0.2);
    ZoneFigures base;
    base.peak      = {FaceZone::left_base, std::log1p(0.2), 0, 0.5};
    base.bent_mean = mean;
    FaceFigures face;
    face.zones = {base};
    return metal_answer(c, through, stretched, {face}, {});
  };
  CHECK(with_mean(0.15).verdict == MetalVerdict::beyond);
  check_words(with_mean(0.15).account.text(UnitSystem::metric),
              {"stretched by 20.0 %, its stated elongation is 18.0 %",
               "whether the point tears is not known"},
              {"Expect it to tear"});
  check_words(with_mean(0.19).account.text(UnitSystem::metric), {"Expect it to tear"});

  check_words(said(0, through),
              {"No elongation or limit strain is given for: base plate. Whether the metal "
               "bears a stretch of 20.0 % is not known."});
  check_words(said(0.25, made_up(Outcome::dropped)), {"does not try its metal"},
              {"comes closest"});
  check_words(said(0.25, made_up(Outcome::undecided)),
              {"The pass has no finding, so its strains do not clear the metal."});

  through.events.push_back(
      {EventKind::ironed, "both sides", 60, 85, 70e3, 105e3, 74, 190e3});
  CHECK(strain_place_remark(reference_case(), through, 39, 70) ==
        "in a leg while it is ironed");
  Case capped       = reference_case();
  capped.weld.width = 10;
  capped.weld.bend  = BendKind::face;
  capped.weld.cap   = {2, 12};
  CHECK(strain_place_remark(capped, through, 6.5, 30) ==
        "at the toe of what is left standing on the convex face");
}
