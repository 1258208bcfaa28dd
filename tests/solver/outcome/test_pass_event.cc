// What a sound pass doesn't have, on made-up records. All samples are invented.

#include "solver/outcome/findings.h"
#include "solver/outcome/hold.h"
#include "solver/outcome/pass_event.h"
#include "solver/setup/set_up.h"
#include "tests/support/figures.h"
#include "tests/support/reference_case.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
/// A step every millimetre to 100 mm: force 10 kN, legs upright from 50 mm on.
std::vector<PassSample> steady()
{
  std::vector<PassSample> samples;
  for (int travel = 1; travel <= 100; ++travel)
  {
    PassSample sample;
    sample.travel     = travel;
    sample.ram_force  = 10e3;
    sample.left.angle = sample.right.angle      = travel < 50 ? travel : 85;
    sample.tool(tool_at::plunger).normal        = 10e3;
    sample.tool(tool_at::left_shoulder).normal  = 6e3;
    sample.tool(tool_at::right_shoulder).normal = 6e3;
    samples.push_back(sample);
  }
  return samples;
}
} // namespace

TEST_CASE("A sound pass has no events", "[unit][events]")
{
  CHECK(pass_events(set_up(reference_case()), steady()).empty());
}

TEST_CASE("A frame that is touched is an event, with the force before and meanwhile",
          "[unit][events]")
{
  Case c              = reference_case();
  c.fixture.frame     = {80, 1.5, 1.5, 10, 1};
  auto       samples  = steady();
  const auto touch_at = [&](int travel, double normal, double force)
  {
    samples[travel - 1].tool(tool_at::right_frame).normal = normal;
    samples[travel - 1].ram_force                         = force;
  };
  for (int travel = 5; travel <= 20; ++travel)
    touch_at(travel, 1e3 * travel, 12e3 + 100 * travel);
  const auto events = pass_events(set_up(c), samples);
  REQUIRE(events.size() == 1);
  CHECK(events[0].kind == EventKind::frame_touched);
  CHECK(events[0].where == "right");
  CHECK(events[0].from == 5);
  CHECK(events[0].to == 20);
  CHECK(events[0].force_before == 10e3);
  CHECK(events[0].largest_force == 14e3);
  CHECK(events[0].at == 20);
  CHECK(events[0].tool_force == 20e3);

  // A later touch on the other side is another event; one that lets go for less than a
  // tenth of the thickness is not.
  samples[39].tool(tool_at::left_frame).normal = 2e3;
  samples[9].tool(tool_at::right_frame).normal = 0;
  const auto more                              = pass_events(set_up(c), samples);
  REQUIRE(more.size() == 2);
  CHECK(more[1].where == "left");

  // A brush of less than a thousandth of Y t^2 w / opening = 15.0 kN is none.
  auto brushed                                 = steady();
  brushed[9].tool(tool_at::right_frame).normal = 14;
  CHECK(pass_events(set_up(c), brushed).empty());
  brushed[9].tool(tool_at::right_frame).normal = 16;
  CHECK(pass_events(set_up(c), brushed).size() == 1);
}

TEST_CASE("A leg thicker than the room beside the plunger is ironed, and through tells it",
          "[unit][events]")
{
  Case c                    = reference_case(); // room (63.2 - 40) / 2 = 11.6 mm
  c.coupon.thickness        = 11.7;
  auto samples              = steady();
  samples.back().left.tip_y = samples.back().right.tip_y = -41;
  const auto events                                      = pass_events(set_up(c), samples);
  REQUIRE(events.size() == 1);
  CHECK(events[0].kind == EventKind::ironed);
  CHECK(events[0].where == "both sides");
  // By hand: centres of nose and arc 51.6 mm apart along x, 11.7 + 20 + 20 - travel in
  // height; less than 11.7 + 20 + 20 apart from 51.7 - sqrt(51.7^2 - 51.6^2) = 48.5 mm of
  // travel on.
  CHECK(events[0].from == 49);
  const Finding finding = decide(set_up(c), samples, StopReason::out);
  CHECK(finding.outcome == Outcome::through);
  REQUIRE(finding.events.size() == 1);
  CHECK(finding.events[0].kind == EventKind::ironed);
  CHECK(figures(finding.account, Evidence::Measure::length) ==
        std::vector<double>{49, events[0].to});
  // What is missing from the force on this mesh: tests/verify/ironing_series.md.
  CHECK(has(finding.evidence, " 6 % "));

  c.coupon.thickness = 11.5;
  CHECK(pass_events(set_up(c), samples).empty());
}

TEST_CASE("The thick leg of a tapered coupon is ironed, though its middle has room",
          "[unit][events]")
{
  Case c             = reference_case(); // room 11.6 mm, length 160 mm
  c.coupon.thickness = 11;
  c.coupon.taper     = 3; // 12.5 mm at the right end, 9.5 mm at the left one
  auto samples       = steady();
  for (std::size_t i = 0; i < samples.size(); ++i)
    samples[i].ram_force = 10e3 + 100. * static_cast<double>(i); // still rising
  const auto events = pass_events(set_up(c), samples);
  REQUIRE(events.size() == 1);
  CHECK(events[0].kind == EventKind::ironed);
  CHECK(events[0].where == "right");
  // By hand: 11.6 mm thick at 0.6 / 3 * 160 = 32 mm from the middle. The bend's half is
  // (20 + 5.5) pi / 2 = 40.1 mm long, so the leg is too thick as soon as it stands there,
  // with 11 + 3 * 40.1 / 160 = 11.75 mm: between 48 and 51 mm of travel.
  CHECK(events[0].from >= 48);
  CHECK(events[0].from <= 51);

  const auto hold = what_holds(set_up(c), samples);
  REQUIRE(hold);
  CHECK(hold->kind == JamKind::squeezed);
  // At 100 mm of travel the nose's centre is 100 - 11 - 20 - 20 = 49 mm below the arc's:
  // the leg is drawn past it 40.1 + 49 = 89 mm from the middle, beyond the end at 80 mm.
  const auto room = figures(hold->account, Evidence::Measure::room);
  REQUIRE(room.size() == 2);
  CHECK(room[0] == Approx(12.5));
  CHECK(room[1] == Approx(11.6));

  c.coupon.taper = -3;
  CHECK(pass_events(set_up(c), samples)[0].where == "left");
  c.coupon.taper = 0.3; // 11.15 mm
  CHECK(pass_events(set_up(c), samples).empty());
}

TEST_CASE("The ram force during an event may be a pull all the time", "[unit][events]")
{
  auto samples                                        = steady();
  samples[80].ram_force                               = -1e3;
  samples[80].tool(tool_at::left_shoulder).from_below = 3e3;
  const auto events = pass_events(set_up(reference_case()), samples);
  REQUIRE(events.size() == 1);
  CHECK(events[0].largest_force < 0);
}

TEST_CASE("A leg as thick as its room is ironed where it is pressed, and squeezed there",
          "[unit][events]")
{
  Case c             = reference_case();
  c.coupon.thickness = 11.6; // the room
  // Once the legs stand the shoulders bear less and less. From 71 mm on, a hundredth of a
  // millimetre of curl is pressed: more again.
  auto       samples  = steady();
  const auto pressing = [&](const bool again)
  {
    for (PassSample &s : samples)
      if (s.travel > 50)
      {
        const double standing = 6e3 - 100 * (s.travel - 50);
        const double pressed  = again && s.travel > 70 ? 300 * (s.travel - 70) : 0.;
        s.ram_force           = standing + pressed;
        s.tool(tool_at::left_shoulder).normal  = standing;
        s.tool(tool_at::right_shoulder).normal = standing + pressed;
      }
    samples.resize(90); // held still
  };
  pressing(false);
  CHECK(pass_events(set_up(c), samples).empty());
  CHECK_FALSE(what_holds(set_up(c), samples));

  pressing(true);
  const auto events = pass_events(set_up(c), samples);
  REQUIRE(events.size() == 1);
  CHECK(events[0].kind == EventKind::ironed);
  CHECK(events[0].where == "right");
  // More than 15 % above the least, 6 - 2 = 4 kN at 70 mm: from 74 mm on, 4.8 kN.
  CHECK(events[0].from == 74);
  const auto hold = what_holds(set_up(c), samples);
  REQUIRE(hold);
  CHECK(hold->kind == JamKind::squeezed);
  CHECK(hold->where == "right leg");

  c.coupon.thickness = 11; // the room leaves 0.6 mm: such a force is not of the two tools
  CHECK(pass_events(set_up(c), samples).empty());
}

TEST_CASE("A cap thicker than the room is ironed where its shoulder bears far more",
          "[unit][events]")
{
  Case c              = reference_case(); // 10 mm; the room is 11.6 mm
  c.weld.width        = 12;
  c.weld.offset       = 45;
  c.weld.cap          = {2, 14};
  auto       samples  = steady();
  const auto cap_from = [&](const double force)
  {
    for (PassSample &s : samples)
      if (s.travel > 60)
        s.tool(tool_at::right_shoulder).normal = force;
  };
  cap_from(6.5e3); // the other bears 6 kN
  CHECK(pass_events(set_up(c), samples).empty());
  // Seen: 127 kN on the shoulder of the cap, 28 kN on the other.
  cap_from(27e3);
  const auto events = pass_events(set_up(c), samples);
  REQUIRE(events.size() == 1);
  CHECK(events[0].kind == EventKind::ironed);
  CHECK(events[0].where == "right");
  CHECK(events[0].from == 61);
  c.weld.cap.height = 1; // 11 mm pass the room
  CHECK(pass_events(set_up(c), samples).empty());

  // A leg that has nearly slid out bears next to nothing: that makes no nip of the other.
  c.weld.cap.height = 2;
  cap_from(6e3);
  for (PassSample &s : samples)
    if (s.travel > 90)
      s.tool(tool_at::left_shoulder).normal = 1e3;
  CHECK(pass_events(set_up(c), samples).empty());
}

TEST_CASE("Only a nose with corners is touched at a corner", "[unit][events]")
{
  auto samples = steady();
  for (PassSample &sample : samples)
  {
    sample.wrap = 60;
    // Either corner bears half of what the nose does: 5 kN over 38 mm.
    sample.tool(tool_at::plunger).line_load = 5e3 / 38;
  }
  Case c = reference_case();
  CHECK(pass_events(set_up(c), samples).empty()); // a half round of 20 mm on 40 mm
  c.fixture.plunger.nose_radius = 5;
  const auto events             = pass_events(set_up(c), samples);
  REQUIRE(events.size() == 1);
  CHECK(events[0].kind == EventKind::nose_corner);
  CHECK(events[0].tool_force == Approx(5e3));
}

TEST_CASE("A shoulder pressed from below is an event", "[unit][events]")
{
  auto samples                                        = steady();
  samples[80].tool(tool_at::left_shoulder).from_below = 3e3;
  const auto events = pass_events(set_up(reference_case()), samples);
  REQUIRE(events.size() == 1);
  CHECK(events[0].kind == EventKind::shoulder_underside);
  CHECK(events[0].where == "left");
  // By hand: Y w t^2 / opening = 250 * 38 * 100 / 63.2 = 15 kN; 60 N at the exit, seen on
  // one of two mirror images, are no event, 1 % of that is.
  samples[80].tool(tool_at::left_shoulder).from_below = 60;
  CHECK(pass_events(set_up(reference_case()), samples).empty());
  samples[80].tool(tool_at::left_shoulder).from_below = 155;
  CHECK(pass_events(set_up(reference_case()), samples).size() == 1);
}

TEST_CASE("A coupon that lost a shoulder before its legs stood is through, bent short",
          "[unit][events]")
{
  const Case c    = reference_case();
  const auto legs = [](std::vector<PassSample> samples, double left, double right)
  {
    // Both ends are out at the last step; the left one has no shoulder from 90 mm on.
    for (std::size_t i = 49; i < samples.size(); ++i)
    {
      samples[i].left.angle  = left;
      samples[i].right.angle = right;
      if (i >= 89)
        samples[i].tool(tool_at::left_shoulder).normal = 0;
    }
    samples.back().tool(tool_at::right_shoulder).normal = 0;
    samples.back().left.tip_y = samples.back().right.tip_y = -41; // last tangent: -40
    return samples;
  };
  const auto events = pass_events(set_up(c), legs(steady(), 62, 81));
  REQUIRE(events.size() == 1);
  CHECK(events[0].kind == EventKind::bent_short);
  CHECK(events[0].from == 89);
  CHECK(events[0].to == 100);
  CHECK(events[0].tool_force == 6e3);
  const Finding finding = decide(set_up(c), legs(steady(), 62, 81), StopReason::out, {});
  CHECK(finding.outcome == Outcome::through);
  REQUIRE(finding.events.size() == 1);
  CHECK(finding.events[0].kind == EventKind::bent_short);
  CHECK(finding.part_bent); // and so clears no metal
  CHECK(figures(finding.account, Evidence::Measure::length) ==
        std::vector<double>{89, 100});

  CHECK(pass_events(set_up(c), legs(steady(), 60, 91)).size() == 1); // one leg is no leg
  CHECK(pass_events(set_up(c), legs(steady(), 76, 81)).empty());
  // The same bend as 82 deg each, of metal that springs back, leaning a little.
  CHECK(pass_events(set_up(c), legs(steady(), 74.5, 89.5)).empty());
  CHECK(pass_events(set_up(c), legs(steady(), 74, 75)).size() == 1);
  auto fell               = legs(steady(), 76, 85); // and then a leg falls back
  fell.back().left.angle  = 68;
  fell.back().right.angle = 91;
  CHECK(pass_events(set_up(c), fell).size() == 1);
  CHECK(pass_events(set_up(c), legs(steady(), 72, 99)).empty()); // a full U that leans
  CHECK(pass_events(set_up(c), legs(steady(), 30, 90)).empty()); // dropped, another finding
  auto stopped               = legs(steady(), 62, 81);
  stopped.back().right.tip_y = 0; // an end is still up: nobody knows yet
  CHECK(pass_events(set_up(c), stopped).empty());
}
