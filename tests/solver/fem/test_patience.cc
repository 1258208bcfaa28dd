// How long a pass tries. First a metal that does not harden, bent over a nose with corners:
// where its first hinge forms the unbalanced force hovers for many iterations before it
// comes down. The coupon is drawn number 968 of seed 1 of tests/long/extreme; its numbers
// are invented.

#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

TEST_CASE("A pass goes on past the first hinge of a metal that does not harden",
          "[fem][pass]")
{
  Case c                            = reference_case();
  c.coupon                          = {87.3036296, 20.0165761, 9.93924664, 5.0607728};
  c.material.young                  = 5293.10433;
  c.material.poisson                = 0.0887374382;
  c.material.density                = 1200;
  c.material.flow                   = perfectly_plastic(1.4164812);
  c.fixture.plunger                 = {35.4284916, 3.95564496};
  c.fixture.shoulders.radius        = 5.70178803;
  c.fixture.shoulders.opening       = 56.4895282;
  c.fixture.shoulders.depth         = 21.6604312;
  c.fixture.shoulders.bottom_radius = 9.58030246;
  c.friction                        = {0.321460876, 0.363079011, 0.363079011};
  c.mesh.level                      = MeshLevel::quick;
  c.ram                             = {10e3, 0.6};
  PassSimulation<2> pass(set_up(c), MPI_COMM_WORLD);
  const Finding     finding = pass.run();
  CHECK(finding.outcome == Outcome::stroke_out); // undecided at 0.41 mm before
  CHECK(finding.accuracy.trust != Trust::broken);
  // Three-point bending of a plastic hinge: 4 M / opening, M = 2 / sqrt(3) Y w t^2 / 4 (by
  // hand: 57 N); over two corners of a flat nose the arm is some half as long.
  CHECK(finding.force > 57);
  CHECK(finding.force < 57 * 56.5 / (56.5 - 35.4));
}

TEST_CASE(
    "Beyond the ram's capacity a pass stops after the work it is given, and says that "
    "the rest is not known",
    "[fem][pass]")
{
  Case c          = reference_case();
  c.mesh.level    = MeshLevel::quick;
  c.ram           = {5e3, 120};
  PassSetup setup = set_up(c);
  CHECK(setup.step.work_beyond < 1e9); // a quick mesh has a bound
  setup.step.work_beyond = 40. * 686;  // iterations times unknowns
  PassSimulation<2> bounded(setup, MPI_COMM_WORLD);
  const Finding     finding = bounded.run();
  CHECK(finding.outcome == Outcome::over_capacity);
  REQUIRE(finding.beyond);
  CHECK(finding.beyond->end == BeyondEnd::not_known);
  CHECK(finding.beyond->force < 25e3); // it takes some 30 kN

  c.mesh.level = MeshLevel::standard;
  CHECK(std::isinf(set_up(c).step.work_beyond));
}
