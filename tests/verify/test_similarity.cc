// A fixture eight times as large is the same fixture. Nothing in the equations has a length
// of its own: rate-independent metal, Coulomb friction, rigid tools. So travel goes with
// the size, forces with its square, strains and angles not at all (dimensional analysis, by
// hand; Buckingham, Physical Review 4, 1914, 345). A length in mm inside the program, as a
// contact's reach or a least step, shows here, and first of all in the first slip of a
// coupon that lies off centre.

#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace throughbend;

namespace
{
Case scaled(double size)
{
  Case c                            = reference_case();
  c.mesh.level                      = MeshLevel::quick;
  c.coupon                          = {160 * size, 38 * size, 10 * size, 3 * size};
  c.fixture.plunger                 = {40 * size, 20 * size};
  c.fixture.shoulders.radius        = 20 * size;
  c.fixture.shoulders.opening       = 63.2 * size;
  c.fixture.shoulders.depth         = 45 * size;
  c.fixture.shoulders.bottom_radius = 5 * size;
  c.fixture.frame                   = {90 * size, 1.5 * size, 1.5 * size, 10 * size, size};
  c.ram                             = {1e9 * size * size, 45 * size};
  return c;
}

std::vector<PassSample> pushed(const Case &c)
{
  PassSimulation<2> simulation(set_up(c), MPI_COMM_SELF);
  REQUIRE(simulation.run().outcome == Outcome::stroke_out);
  return simulation.samples();
}
} // namespace

TEST_CASE("A fixture of another size gives the same pass", "[verify][similarity]")
{
  const double size  = GENERATE(0.125, 8.);
  const auto   small = pushed(scaled(1));
  const auto   large = pushed(scaled(size));
  REQUIRE(small.size() == large.size());
  for (std::size_t i = 0; i < small.size(); ++i)
  {
    INFO("size " << size << ", sample " << i << " at " << small[i].travel << " mm");
    CHECK(large[i].travel == Approx(size * small[i].travel).epsilon(1e-9));
    CHECK(large[i].ram_force == Approx(size * size * small[i].ram_force).epsilon(1e-6));
    CHECK(large[i].walk == Approx(size * small[i].walk).epsilon(1e-6).margin(1e-6 * size));
    CHECK(large[i].outer_strain == Approx(small[i].outer_strain).epsilon(1e-6));
    CHECK(large[i].left.angle == Approx(small[i].left.angle).epsilon(1e-6).margin(1e-6));
    for (const ToolPlace place : {tool_at::left_shoulder, tool_at::right_shoulder})
      CHECK(large[i].tool(place).normal ==
            Approx(size * size * small[i].tool(place).normal).epsilon(1e-5).margin(1e-2));
  }
}
