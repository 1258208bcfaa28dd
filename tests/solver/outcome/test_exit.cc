// When a coupon counts as out, on made-up records. All samples are invented; the levels are
// those of reference case R: arc down to -20 mm, wall to the bottom fillet at -40 mm.

#include "solver/outcome/exit.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
constexpr double far_out = 80; ///< [mm] a flat coupon's end, past every wall
constexpr double narrow  = 30; ///< [mm] a finished U, inside the opening of 63.2 mm

struct Ends
{
  double left, right; ///< heights of the ends' corners [mm]
};

/// Legs at `angle` [deg], both shoulders holding, the ram pushing with `force` [N].
PassSample sample_at(Ends ends, double angle, double force)
{
  PassSample sample;
  sample.travel    = 85;
  sample.ram_force = force;
  sample.left      = {angle, -30, ends.left};
  sample.right     = {angle, 30, ends.right};

  sample.tool(tool_at::plunger).normal        = force;
  sample.tool(tool_at::left_shoulder).normal  = force / 2;
  sample.tool(tool_at::right_shoulder).normal = force / 2;
  return sample;
}

/// Nothing but the plunger touches it.
PassSample unheld(Ends ends, double angle, double force = 0)
{
  PassSample sample                           = sample_at(ends, angle, force);
  sample.tool(tool_at::left_shoulder).normal  = 0;
  sample.tool(tool_at::right_shoulder).normal = 0;
  return sample;
}

bool out(const PassSample &now, double outermost_x)
{
  return is_out(set_up(reference_case()), now, outermost_x);
}
} // namespace

TEST_CASE("A coupon is out once both ends are below the last tangent and nothing holds it",
          "[unit][exit]")
{
  CHECK(out(unheld({-40.1, -40.1}, 88), narrow));
  CHECK(out(unheld({-41, -60}, 20), far_out));
  CHECK_FALSE(out(unheld({-39.9, -39.9}, 88), narrow));
  CHECK_FALSE(out(unheld({-39.9, -60}, 88), narrow));
  CHECK_FALSE(out(unheld({-60, -39.9}, 88), narrow));
}

TEST_CASE("A shoulder or frame that still presses holds the coupon, wherever its ends are",
          "[unit][exit]")
{
  for (const ToolPlace place : {tool_at::left_shoulder, tool_at::right_shoulder,
                                tool_at::left_frame, tool_at::right_frame})
  {
    PassSample held         = unheld({-45, -60}, 88);
    held.tool(place).normal = 16; // a thousandth of Y t^2 w / opening is 15.03 N
    CHECK_FALSE(out(held, narrow));
    held.tool(place).normal = 14;
    CHECK(out(held, narrow));
  }
}

TEST_CASE("A bent coupon of which one end is still up is not out, force or not",
          "[unit][exit]")
{
  CHECK_FALSE(out(unheld({-41, -35}, 85), narrow));
  CHECK_FALSE(out(unheld({-35, -41}, 85), narrow));
  CHECK_FALSE(out(unheld({-41, 25}, 80), 31)); // one leg out, the other far up
  CHECK_FALSE(out(unheld({-21, -25}, 85), narrow));
}

TEST_CASE("A coupon is loaded while it is held and both ends are up", "[unit][exit]")
{
  CHECK(is_loaded(set_up(reference_case()), sample_at({-39.9, -20}, 88, 2e3)));
  CHECK_FALSE(is_loaded(set_up(reference_case()), sample_at({-40.1, -20}, 88, 2e3)));
  CHECK_FALSE(is_loaded(set_up(reference_case()), unheld({-20, -60}, 88)));
}

TEST_CASE("Rollers let go at their centres", "[unit][exit]")
{
  Case c                    = reference_case();
  c.fixture.shoulders.kind  = ShoulderKind::rollers;
  c.fixture.shoulders.depth = 0;
  CHECK(is_out(set_up(c), unheld({-20.1, -20.1}, 85), narrow));
  CHECK_FALSE(is_out(set_up(c), unheld({-19.9, -20.1}, 85), narrow));
}

TEST_CASE(
    "An unbent coupon that only the plunger touches falls if the opening is wide enough",
    "[unit][exit]")
{
  PassSample loose = unheld({-5, -5}, 30);
  CHECK(out(loose, narrow));
  CHECK(out(loose, 31.5)); // half the opening is 31.6
  CHECK_FALSE(out(loose, 31.7));
  // Held by anything, even by one frame plate, it does not.
  for (const ToolPlace place : {tool_at::left_shoulder, tool_at::right_shoulder,
                                tool_at::left_frame, tool_at::right_frame})
  {
    PassSample held         = loose;
    held.tool(place).normal = 16;
    CHECK_FALSE(out(held, narrow));
  }
  // Nor at the very start, before the springs have met.
  loose.travel = 0.5;
  CHECK_FALSE(out(loose, narrow));
}

TEST_CASE("The room to the exit is what the higher end still has to go down",
          "[unit][exit]")
{
  const Case c = reference_case();
  CHECK(room_to_exit(set_up(c), sample_at({-30, -35}, 88, 1e3)) == Approx(10));
  CHECK(room_to_exit(set_up(c), sample_at({-38, -12}, 88, 1e3)) == Approx(28));
  CHECK(room_to_exit(set_up(c), sample_at({-45, -50}, 88, 1e3)) > 1e6); // past it
  CHECK(room_to_exit(set_up(c), sample_at({-30, -35}, 40, 1e3)) > 1e6); // still swinging
}

TEST_CASE("A coupon rides loose after three jumps at almost no force, until it bears again",
          "[unit][exit]")
{
  const auto at = [](StepKind kind, double force)
  {
    PassSample sample = sample_at({-30, -10}, 60, force);
    sample.kind       = kind;
    return sample;
  };
  const auto push = [&](double force) { return at(StepKind::push, force); };
  const auto jump = [&](double force) { return at(StepKind::relax, force); };
  CHECK_FALSE(rides_loose({}));
  CHECK_FALSE(rides_loose({push(1000), push(5), push(5), push(5)}));
  CHECK_FALSE(rides_loose({push(1000), jump(5), jump(5)}));
  CHECK(rides_loose({push(1000), jump(5), jump(5), jump(5)}));
  CHECK(rides_loose({push(1000), jump(5), push(9), jump(5), push(0), jump(9), push(9)}));
  CHECK_FALSE(rides_loose({push(1000), jump(500), jump(5), jump(5)}));
  CHECK_FALSE(rides_loose({push(1000), jump(5), jump(5), jump(5), push(11)}));
  CHECK_FALSE(rides_loose({push(1000), jump(5), jump(5), push(11), jump(5), push(5)}));
}

TEST_CASE("The ram still bears from a hundredth of its largest force on", "[unit][exit]")
{
  const auto push = [](double force) { return sample_at({-30, -10}, 60, force); };
  CHECK_FALSE(still_bears({}));
  CHECK(still_bears({push(5)}));
  CHECK(still_bears({push(1000), push(11)}));
  CHECK_FALSE(still_bears({push(1000), push(9)}));
  CHECK(still_bears({push(1000), push(9), push(11)}));
}
