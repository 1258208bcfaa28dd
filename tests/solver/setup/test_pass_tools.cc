// Which tools a case has, and the room between plunger and shoulder against the nearest of
// many outline points. Dimensions are invented.

#include "meshes/setup/fixture_profiles.h"
#include "solver/setup/pass_tools.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace throughbend;

namespace
{
int count(const std::vector<RigidTool> &tools, ToolPlace place)
{
  return static_cast<int>(std::count_if(tools.begin(), tools.end(),
                                        [place](const RigidTool &tool)
                                        { return tool.place == place; }));
}

const RigidTool &find(const std::vector<RigidTool> &tools, ToolPlace place)
{
  return *std::find_if(tools.begin(), tools.end(),
                       [place](const RigidTool &tool) { return tool.place == place; });
}

/// Least distance between plunger at `travel` and the right shoulder, from points laid
/// every few micrometres along the plunger.
double brute_force(const Case &c, double travel)
{
  const auto       tools           = pass_tools(c, Extent::half);
  const RigidTool &plunger         = find(tools, tool_at::plunger),
                  &shoulder        = find(tools, tool_at::right_shoulder);
  std::vector<PlaneVector> corners = plunger.outlines.front().outline(5e-4);
  corners.push_back(corners.front());
  double least = 1e300;
  for (std::size_t i = 0; i + 1 < corners.size(); ++i)
  {
    const int pieces =
        std::max(1, static_cast<int>(length(corners[i + 1] - corners[i]) / 0.05));
    for (int k = 0; k < pieces; ++k)
    {
      const PlaneVector p = corners[i] +
                            (double(k) / pieces) * (corners[i + 1] - corners[i]) +
                            plunger.shift(travel);
      least = std::min(least, shoulder.proximity(p, travel).gap);
    }
  }
  return least;
}
} // namespace

TEST_CASE("A half model meets the plunger and the right-hand tools, a full one all",
          "[unit][tools]")
{
  Case c = reference_case();
  CHECK(pass_tools(c, Extent::half).size() == 2);
  CHECK(pass_tools(c, Extent::full).size() == 3);
  c.fixture.frame  = {80, 1.5, 1.5, 10, 1};
  const auto tools = pass_tools(c, Extent::full);
  CHECK(count(tools, tool_at::plunger) == 1);
  CHECK(count(tools, tool_at::left_shoulder) == 1);
  CHECK(count(tools, tool_at::right_shoulder) == 1);
  for (const ToolPlace frame : {tool_at::left_frame, tool_at::right_frame})
  {
    CHECK(count(tools, frame) == 1);
    CHECK(find(tools, frame).outlines.size() == 2); // above and below the opening
  }
}

TEST_CASE("Each tool has its own friction, and a turning roller none", "[unit][tools]")
{
  Case c          = reference_case();
  c.fixture.frame = {80, 1.5, 1.5, 10, 1};
  c.friction      = {0.1, 0.2, 0.3};
  auto tools      = pass_tools(c, Extent::full);
  CHECK(find(tools, tool_at::plunger).friction == 0.1);
  CHECK(find(tools, tool_at::left_shoulder).friction == 0.2);
  CHECK(find(tools, tool_at::right_frame).friction == 0.3);
  c.fixture.shoulders.kind = ShoulderKind::rollers;
  CHECK(find(pass_tools(c, Extent::half), tool_at::right_shoulder).friction == 0.2);
  c.fixture.shoulders.rollers_turn = true;
  CHECK(find(pass_tools(c, Extent::half), tool_at::right_shoulder).friction == 0);
}

TEST_CASE(
    "At travel 0 the coupon lies a contact band above the shoulders and the nose a band "
    "above the coupon; then only the plunger moves",
    "[unit][tools]")
{
  for (const double reach : {160.0, 95.0})
    for (const double tolerance : {1e-3, 4e-4})
    {
      Case c                         = reference_case();
      c.coupon.length                = reach;
      c.solver.penetration_tolerance = tolerance;
      const auto       tools         = pass_tools(c, Extent::half);
      const RigidTool &plunger       = find(tools, tool_at::plunger),
                      &shoulder      = find(tools, tool_at::right_shoulder);
      const double band = tolerance * 10, low = coupon_level(c), touch = touch_level(c);
      CHECK(low == Approx(resting_height(c) + band).epsilon(0).margin(1e-12));
      CHECK(plunger.proximity({0, low + 10}, 0).gap == Approx(band).margin(1e-12));
      // Springs act within the band only: nothing presses yet, anywhere on the lower face.
      double nearest = 1e300;
      for (double x = 0; x <= reach / 2; x += 0.25)
        nearest = std::min(nearest, shoulder.proximity({x, low}, 0).gap);
      CHECK(nearest >= band * (1 - 1e-9) * (reach > 103.2 ? 1. : 0.5));
      CHECK(nearest < 1.01 * band);

      CHECK(plunger.proximity({0, touch}, 0).gap == Approx(0).margin(1e-12));
      CHECK(plunger.proximity({0, touch}, 7).gap == Approx(-7));
      CHECK(plunger.proximity({0, touch - 7}, 7).gap == Approx(0).margin(1e-12));
      CHECK(shoulder.proximity({51.6, 0}, 7).gap == Approx(0).margin(1e-12));
    }
}

TEST_CASE("The plunger is tall enough for the longest coupon and stroke", "[unit][tools]")
{
  const Case       c       = reference_case();
  const auto       tools   = pass_tools(c, Extent::half);
  const RigidTool &plunger = find(tools, tool_at::plunger);
  // Legs as long as the whole coupon, the ram at its stroke: still beside the flank.
  const Proximity near = plunger.proximity({20.5, 160}, c.ram.stroke);
  CHECK(near.gap == Approx(0.5));
  CHECK(near.normal.x == Approx(1));
}

TEST_CASE("The room between plunger and shoulder is the least distance of their outlines",
          "[unit][tools]")
{
  Case wide                         = reference_case();
  wide.fixture.plunger              = {50, 10};
  wide.fixture.shoulders.opening    = 74;
  Case rolling                      = reference_case();
  rolling.fixture.shoulders         = {};
  rolling.fixture.shoulders.kind    = ShoulderKind::rollers;
  rolling.fixture.shoulders.radius  = 15;
  rolling.fixture.shoulders.opening = 63.2;
  Case thick                        = reference_case();
  thick.coupon.thickness            = 12.5;
  for (const Case &c : {reference_case(), wide, rolling, thick})
    for (const double travel : {0.0, 5.0, 12.0, 20.0, 28.0, 33.0, 40.0, 60.0, 80.0})
    {
      INFO("travel " << travel << ", nose radius " << c.fixture.plunger.nose_radius
                     << ", shoulder radius " << c.fixture.shoulders.radius);
      CHECK(set_up(c).room(travel) == Approx(brute_force(c, travel)).margin(2e-3));
    }
}
