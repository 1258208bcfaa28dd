// When a coupon counts as out, on made-up records. All samples are invented; the levels are
// those of reference case R: arc down to -20 mm, wall to the bottom fillet at -40 mm.

#include "solver/pass/exit.h"
#include "tests/reference_case.h"

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

  sample.tool(ToolRole::plunger).normal        = force;
  sample.tool(ToolRole::left_shoulder).normal  = force / 2;
  sample.tool(ToolRole::right_shoulder).normal = force / 2;
  return sample;
}

/// After a peak of 30 kN earlier on.
std::vector<PassSample> after_peak(const PassSample &last)
{
  PassSample peak = sample_at({0, 0}, 50, 30e3);
  peak.travel     = 30;
  return {peak, last};
}

bool out(const PassSample &last, double outermost_x)
{
  return is_out(reference_case(), after_peak(last), outermost_x);
}
} // namespace

TEST_CASE("A coupon is out once both ends are below the last point that can touch them",
          "[unit][exit]")
{
  CHECK(out(sample_at({-40.1, -40.1}, 88, 5e3), narrow));
  // Whatever the force and the angle: nothing is left to touch.
  CHECK(out(sample_at({-41, -60}, 20, 25e3), far_out));
  CHECK_FALSE(out(sample_at({-39.9, -39.9}, 88, 5e3), narrow));
  CHECK_FALSE(out(sample_at({-39.9, -60}, 88, 5e3), narrow));
  CHECK_FALSE(out(sample_at({-60, -39.9}, 88, 5e3), narrow));
}

TEST_CASE("Rollers let go at their centres", "[unit][exit]")
{
  Case c                    = reference_case();
  c.fixture.shoulders.kind  = ShoulderKind::rollers;
  c.fixture.shoulders.depth = 0;
  CHECK(is_out(c, after_peak(sample_at({-20.1, -20.1}, 85, 5e3)), narrow));
  CHECK_FALSE(is_out(c, after_peak(sample_at({-19.9, -20.1}, 85, 5e3)), narrow));
}

TEST_CASE(
    "A coupon that only the plunger touches falls if the opening is wide enough for it",
    "[unit][exit]")
{
  PassSample loose                            = sample_at({-5, -5}, 30, 0);
  loose.tool(ToolRole::left_shoulder).normal  = 0;
  loose.tool(ToolRole::right_shoulder).normal = 0;
  CHECK(out(loose, narrow));
  CHECK(out(loose, 31.5)); // half the opening is 31.6
  CHECK_FALSE(out(loose, 31.7));
  // Held by anything, even by one frame plate, it does not.
  for (const ToolRole role : {ToolRole::left_shoulder, ToolRole::right_shoulder,
                              ToolRole::left_frame, ToolRole::right_frame})
  {
    PassSample held        = loose;
    held.tool(role).normal = 1e-3;
    CHECK_FALSE(out(held, narrow));
  }
  // Nor at the very start, before the springs have met.
  loose.travel = 0.5;
  CHECK_FALSE(out(loose, narrow));
}

TEST_CASE("With one end out and the force gone a coupon is out, bent or not",
          "[unit][exit]")
{
  // Two hundredths of the peak of 30 kN.
  CHECK(out(sample_at({-41, -35}, 85, 590), far_out));
  CHECK(out(sample_at({-35, -41}, 85, 590), far_out));
  CHECK(out(sample_at({-41, -35}, 30, 590), far_out));
  CHECK_FALSE(out(sample_at({-41, -35}, 85, 610), far_out));
  CHECK_FALSE(out(sample_at({-39, -35}, 85, 590), far_out));
}

TEST_CASE("Between the walls, a bent coupon that nothing pushes is out", "[unit][exit]")
{
  // A thousandth of the peak; both ends below the arc.
  CHECK(out(sample_at({-21, -25}, 85, 29), far_out));
  CHECK_FALSE(out(sample_at({-21, -25}, 85, 31), far_out));
  CHECK_FALSE(out(sample_at({-19, -25}, 85, 29), far_out));
  // A jump may drop the force for a moment while a leg is still flat.
  CHECK_FALSE(out(sample_at({-21, -25}, 55, 0), far_out));
  PassSample uneven = sample_at({-21, -25}, 85, 0);
  uneven.left.angle = 55;
  CHECK_FALSE(out(uneven, far_out));
}

TEST_CASE("No force is measured against that of bending when there was no peak yet",
          "[unit][exit]")
{
  // Y t^2 w / opening of R: 250 * 100 * 38 / 63.2 = 15.03 kN, and two hundredths of it.
  const auto alone = [](double force) {
    return is_out(reference_case(), {sample_at({-41, -35}, 85, force)}, far_out);
  };
  CHECK(alone(299));
  CHECK_FALSE(alone(303));
}

TEST_CASE("The room to the exit is what the higher end still has to go down",
          "[unit][exit]")
{
  const Case c = reference_case();
  CHECK(room_to_exit(c, sample_at({-30, -35}, 88, 1e3)) == Approx(10));
  CHECK(room_to_exit(c, sample_at({-38, -12}, 88, 1e3)) == Approx(28));
  CHECK(room_to_exit(c, sample_at({-45, -50}, 88, 1e3)) == 0);
  CHECK(room_to_exit(c, sample_at({-30, -35}, 40, 1e3)) > 1e6); // still swinging
}
