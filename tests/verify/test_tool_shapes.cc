// Tools of other shapes than the options know, made from outlines alone: pass, equations
// and findings take them as they are. What is compared is the plain tool. By hand:
// geometry. Dimensions are invented.

#include "tests/support/reference_case.h"
#include "tests/verify/pass_figures.h"

#include <catch2/catch.hpp>

using namespace throughbend;

namespace
{
PassSetup quick_setup()
{
  Case c       = reference_case();
  c.mesh.level = MeshLevel::quick;
  return set_up(c);
}

PassRecord pass_with(const PassSetup &setup)
{
  PassSimulation<2> simulation(setup, MPI_COMM_SELF);
  return record_of(reference_case(), simulation);
}

RigidTool &tool_of(PassSetup &setup, const ToolPlace place)
{
  for (RigidTool &tool : setup.tools)
    if (tool.place == place)
      return tool;
  throw std::logic_error("no such tool");
}

double ram_force(const PassRecord &run, const double travel)
{
  return at(run, travel, [](const PassSample &s) { return s.ram_force; });
}

/// A block whose inner wall falls back below the arc, by `lean` [rad] from upright. The arc
/// is the plain one's.
RigidProfile leaning_block(const double lean)
{
  const double r = 20, half = 31.6, depth = 45;
  // On the line that touches the arc where its normal has turned on by `lean`.
  const auto wall = [&](const double y)
  { return half + r - (r + std::sin(lean) * (y + r)) / std::cos(lean); };
  return RigidProfile::rounded({{{half + 30, -depth}, 0},
                                {{half + 30, 0}, 4},
                                {{wall(0), 0}, r},
                                {{wall(-depth), -depth}, 0}});
}
} // namespace

TEST_CASE("A shoulder whose wall falls back lets the coupon go where its arc ends",
          "[verify][tools]")
{
  const PassSetup  plain    = quick_setup();
  const PassRecord upright  = pass_with(plain);
  PassSetup        setup    = plain;
  RigidTool       &block    = tool_of(setup, tool_at::right_shoulder);
  block.outlines            = {leaning_block(0.25)};
  block.gauge.holds_down_to = -20; // the arc's centre
  REQUIRE(plain.last_tangent() == Approx(-40));
  const PassRecord leaning = pass_with(setup);

  CHECK(upright.finding.outcome == Outcome::through);
  CHECK(leaning.finding.outcome == Outcome::through);
  // It may go once past the level; a leg that leans outward presses somewhat longer.
  const double high = leaning.samples.back().right.tip_y,
               low  = upright.samples.back().right.tip_y;
  CHECK(low < -40);
  CHECK(high < -20);
  CHECK(high > -40);
  // Legs that stand nearly upright go down with the plunger: it goes earlier by most of the
  // 20 mm between the levels.
  CHECK(upright.finding.travel - leaning.finding.travel < 20);
  CHECK(upright.finding.travel - leaning.finding.travel > 15);
  // The wall is met past the peak only.
  for (const double travel : {10., 20., 30.})
    CHECK(ram_force(leaning, travel) == Approx(ram_force(upright, travel)).epsilon(2e-3));
}

TEST_CASE("A plunger of two pieces is met by either of them", "[verify][tools]")
{
  const PassSetup  plain   = quick_setup();
  const PassRecord one     = pass_with(plain);
  const double     touch   = plain.coupon.touch;
  const auto       plunger = [&](const double shank_half, const double shank_from)
  {
    PassSetup  setup = plain;
    RigidTool &tool  = tool_of(setup, tool_at::plunger);
    tool.outlines    = {RigidProfile::rounded({{{-20, touch + 60}, 2},
                                               {{-20, touch}, 20},
                                               {{20, touch}, 20},
                                               {{20, touch + 60}, 2}}),
                        RigidProfile::rounded({{{-shank_half, touch + 500}, 0},
                                               {{-shank_half, touch + shank_from}, 4},
                                               {{shank_half, touch + shank_from}, 4},
                                               {{shank_half, touch + 500}, 0}})};
    return pass_with(setup);
  };
  // A shank thinner than the head is never met.
  const PassRecord thin = plunger(12, 55);
  CHECK(thin.finding.outcome == Outcome::through);
  CHECK(thin.finding.travel == Approx(one.finding.travel).epsilon(1e-6));
  for (const double travel : {20., 60., 90.})
    CHECK(ram_force(thin, travel) == Approx(ram_force(one, travel)).epsilon(1e-6));

  // One that leaves 9.2 mm beside it squeezes the 10 mm legs once it comes between the
  // arcs: 45 mm above the nose, and the arcs' centres lie 20 mm down.
  const PassRecord wide  = plunger(22.4, 45);
  const double     comes = touch + 45 + 20;
  CHECK(ram_force(wide, comes - 25) == Approx(ram_force(one, comes - 25)).epsilon(2e-3));
  CHECK(ram_force(wide, comes + 5) > 5 * ram_force(one, comes + 5));
}
