// What a pass does to shoulders and nose, from made-up samples. Loads are invented;
// pressures and depths are worked out by hand at each.

#include "solver/mechanics/line_contact.h"
#include "solver/outcome/tool_loads.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
PassSample bearing(double travel, double left, double right, double nose)
{
  PassSample sample;
  sample.travel                                  = travel;
  sample.tool(tool_at::left_shoulder).line_load  = left;
  sample.tool(tool_at::right_shoulder).line_load = right;
  sample.tool(tool_at::plunger).line_load        = nose;
  return sample;
}

std::vector<PassSample> invented()
{
  auto release = bearing(60, 9000, 9000, 9000);
  release.kind = StepKind::release; // nothing is loaded any more
  return {bearing(20, 300, 250, 100), bearing(40, 800, 700, 500),
          bearing(60, 200, 900, 400), release};
}
} // namespace

TEST_CASE("The shoulder that bears most is told with its load, and the nose",
          "[unit][tools]")
{
  const auto loads = tool_loads(reference_case(), invented());
  REQUIRE(loads.size() == 2);
  CHECK(loads[0].tool == "right shoulder");
  CHECK(loads[0].line_load == 900);
  CHECK(loads[0].at == 60);
  CHECK(loads[1].tool == "plunger");
  CHECK(loads[1].line_load == 500);
  CHECK(loads[1].at == 40);
  // By hand, R 20 mm on steel, 1/E* = 2 (1 - 0.09) / 210000: a = sqrt(4 * 500 * 20 / (pi *
  // 115385)) = 0.3322 mm, p0 = 2 * 500 / (pi a) = 958 MPa, less than the 1032 MPa that a
  // coupon of 347.7 MPa at 0.05 strain can bear (2.97 times).
  CHECK(loads[1].hertz_pressure == Approx(958.2).epsilon(0.001));
  CHECK(loads[0].hertz_pressure == Approx(1032).epsilon(0.001)); // Hertz would be 1285 MPa
  CHECK(tool_loads(reference_case(), {PassSample{}}).empty());
}

TEST_CASE("The pressure on a tool is bounded by what the strained face bears",
          "[unit][tools]")
{
  const Case c       = reference_case();
  auto       samples = invented();
  for (PassSample &sample : samples)
    sample.plastic_strain = sample.concave_plastic_strain = 0.2;
  // 1285 MPa of Hertz' line against 2.968 times the flow stress at a strain of 0.2.
  const double bears = 2.968 * c.material.flow.stress(0.2);
  CHECK(tool_loads(c, samples)[0].hertz_pressure ==
        Approx(std::min(1285., bears)).epsilon(0.002));
  CHECK(tool_loads(c, samples)[0].hertz_pressure > 1100);
  // Never below a mean that was computed.
  for (PassSample &sample : samples)
    for (ToolContact &tool : sample.tools)
      tool.smoothed_pressure = 1500;
  CHECK(tool_loads(c, samples)[0].hertz_pressure == 1500);
}

TEST_CASE("Of a weld the strongest zone is what presses on the tools", "[unit][tools]")
{
  Case         c        = reference_case();
  const double plate    = tool_loads(c, invented()).front().hertz_pressure;
  c.weld.width          = 10;
  c.weld.strength_ratio = 1.2; // bears 1238 MPa, less than the 1285 MPa of Hertz' line
  CHECK(tool_loads(c, invented()).front().hertz_pressure == Approx(1.2 * plate));
  c.weld.strength_ratio = 0.7;
  CHECK(tool_loads(c, invented()).front().hertz_pressure == Approx(plate));
}

TEST_CASE("A mark is told only where the tool's yield is known, and is none below 2.97 Y",
          "[unit][tools]")
{
  Case       c     = reference_case();
  const auto right = [&] { return tool_loads(c, invented()).front(); };
  CHECK_FALSE(right().dent.has_value()); // not known, and not cleared
  CHECK_FALSE(right().yields());

  c.fixture.shoulders.yield = 900; // 1.79 Y = 1611 MPa: below first yield
  CHECK(right().dent.value() == 0);
  CHECK_FALSE(right().yields());
  c.fixture.shoulders.yield = 400; // 716 MPa to first yield, 1187 MPa to a dent
  CHECK(right().dent.value() == 0);
  CHECK(right().yields());
  c.fixture.shoulders.yield = 250; // dents at 742 MPa
  CHECK(right().yields());
  // Flat of half width 900 / (2 * 742.1) = 0.6064 mm, a^2 / (2 R) = 0.00919 mm.
  CHECK(right().dent.value() == Approx(0.00919).epsilon(0.002));
}
