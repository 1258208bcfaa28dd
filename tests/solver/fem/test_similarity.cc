// Dimensional similarity: with every length of a case ten times as long, stresses and
// strains are the same, forces a hundred times and energies a thousand times as large, at
// the same share of the way. By dimensional analysis: no number of a case but lengths and
// stresses has a dimension in a slow pass. What is not scaled in the code shows here.

#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <initializer_list>

using namespace throughbend;

namespace
{
Case case_of(double scale, double offset)
{
  Case c       = reference_case();
  c.mesh.level = MeshLevel::quick;
  // An iteration more or less must not show.
  c.solver.residual_tolerance = 1e-6;
  // Two in a hundred of the coupon out of the middle: both legs and a walk.
  c.coupon.offset = offset;
  c.ram.stroke    = 12;
  for (double *length :
       {&c.coupon.length, &c.coupon.width, &c.coupon.thickness, &c.coupon.offset,
        &c.fixture.plunger.width, &c.fixture.plunger.nose_radius,
        &c.fixture.shoulders.radius, &c.fixture.shoulders.opening,
        &c.fixture.shoulders.depth, &c.fixture.shoulders.bottom_radius, &c.ram.stroke})
    *length *= scale;
  return c;
}

struct Run
{
  Finding                 finding;
  std::vector<PassSample> samples;
};

Run push(const Case &c)
{
  PassSimulation<2> simulation(set_up(c), MPI_COMM_SELF);
  Run               run;
  run.finding = simulation.run();
  run.samples = simulation.samples();
  return run;
}
} // namespace

TEST_CASE("A coupon ten times as large in all its lengths does the same", "[fem][similar]")
{
  const double offset = GENERATE(0., 3.);
  // Eight times as large changes no digit of a binary number, so that even Newton goes the
  // same way; ten times rounds, which may cost or save an iteration near the tolerance.
  const double scale = GENERATE(8., 10.);
  const Run    own = push(case_of(1, offset)), large = push(case_of(scale, offset));
  CHECK(large.finding.outcome == own.finding.outcome);
  REQUIRE(large.samples.size() == own.samples.size());
  constexpr double same = 1e-6;
  for (std::size_t i = 0; i < own.samples.size(); ++i)
  {
    const PassSample &a = own.samples[i], &b = large.samples[i];
    INFO("step " << i << " of offset " << offset << ", " << scale << " times as large");
    if (scale == 8)
      CHECK(b.iterations == a.iterations);
    CHECK(b.travel == Approx(scale * a.travel).epsilon(same));
    CHECK(b.ram_force / (scale * scale) == Approx(a.ram_force).epsilon(same).margin(1e-3));
    CHECK(b.outer_strain == Approx(a.outer_strain).epsilon(same).margin(1e-9));
    CHECK(b.plastic_strain == Approx(a.plastic_strain).epsilon(same).margin(1e-9));
    CHECK(b.energy.friction / (scale * scale * scale) ==
          Approx(a.energy.friction).epsilon(same).margin(1e-3));
    CHECK(b.right.angle == Approx(a.right.angle).epsilon(same).margin(1e-6));
    CHECK(b.walk / scale == Approx(a.walk).epsilon(same).margin(1e-6));
    CHECK(b.nose_gap / scale == Approx(a.nose_gap).epsilon(same).margin(1e-6));
    const ToolContact &left = a.tool(tool_at::left_shoulder);
    const ToolContact &wide = b.tool(tool_at::left_shoulder);
    CHECK(wide.slipping == Approx(left.slipping).margin(1e-6));
    CHECK(wide.smoothed_pressure == Approx(left.smoothed_pressure).margin(1e-3));
  }
}

TEST_CASE("The reach of contact grows with the coupon and its steps", "[fem][similar]")
{
  const ContactStiffness own   = contact_stiffness(case_of(1, 0));
  const ContactStiffness large = contact_stiffness(case_of(10, 0));
  CHECK(large.reach == Approx(10 * own.reach));
  CHECK(large.nose_reach == Approx(10 * own.nose_reach));
  // Each step of either fits in: nothing comes into contact whose foot was not known.
  CHECK(own.reach > step_lengths(case_of(1, 0)).largest);
  CHECK(large.reach > step_lengths(case_of(10, 0)).largest);
}
