// The bounds of a bench card, simulated: coupons at all of them at once go through, with no
// more force and stroke than the card asks of the ram. Cases are variations of reference
// case R, invented; that they ought to go through is what the card says.

#include "solver/limits/case_limits.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace throughbend;

namespace
{
struct Pushed
{
  Finding finding;
  double  force = 0; ///< largest of the ram [N]
};

Pushed push(Case c)
{
  c.mesh.level = MeshLevel::quick;
  PassSimulation<2> simulation(set_up(c), MPI_COMM_WORLD);
  Pushed            pushed;
  pushed.finding = simulation.run();
  for (const PassSample &sample : simulation.samples())
    pushed.force = std::max(pushed.force, sample.ram_force);
  return pushed;
}
} // namespace

TEST_CASE("coupons at the bounds of a bench card go through when they are simulated",
          "[verify][card]")
{
  Case open            = reference_case();
  open.ram             = {80e3, 120};
  Case framed          = open;
  framed.fixture.frame = {75, 1.5, 1.5, 10, 1};
  for (const Case &c : {open, framed})
  {
    const CaseLimits limits = case_limits(c);
    REQUIRE(limits.possible());
    INFO("frame " << c.fixture.frame.present() << ", thickest "
                  << limits.extreme.coupon.thickness << " mm, longest "
                  << limits.extreme.coupon.length << " mm");

    // Nine tenths of what the card asks of the ram is what it expects at most.
    const Pushed longest = push(limits.extreme);
    CHECK(longest.finding.outcome == Outcome::through);
    CHECK(longest.force < 0.9 * limits.force.value);
    CHECK(longest.finding.travel < limits.stroke.value);

    Case strongest          = limits.extreme;
    strongest.material.flow = c.material.flow.scaled(limits.strongest.decisive()->value /
                                                     c.material.flow.initial_stress());
    const Pushed hard       = push(strongest);
    CHECK(hard.finding.outcome == Outcome::through);
    CHECK(hard.force < 0.9 * limits.strongest_force.value);

    Case shortest          = limits.extreme;
    shortest.coupon.length = limits.shortest.value;
    shortest.coupon.offset = 0.15 * shortest.coupon.thickness; // laid by eye
    CHECK(push(shortest).finding.outcome == Outcome::through);
  }
}
