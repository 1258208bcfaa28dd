// What the mesh level `standard` is good for: largest ram force and largest strain of the
// convex face of whole passes against the same passes on finer meshes with finer steps.
// Plain, welded, softened, off-centre and over-thick coupons in the plane, and a plain
// body.

#include "inputs/keys/case_reader.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/verify/ironed_stretch.h"
#include "tests/verify/ladder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

using namespace throughbend;

namespace
{
struct Largest
{
  double force  = 0; ///< of the ram [N]
  double strain = 0; ///< log, along the convex face; of a body anywhere on it [-]
};

/// Up to where force and strain have had their largest values: the travel of all these
/// cases is longer.
constexpr double far_enough = 46; // [mm]

template <int dim>
Largest largest(Case c)
{
  c.mesh.dimension = dim;
  c.ram.stroke     = far_enough;
  PassSimulation<dim> simulation(set_up(c), MPI_COMM_WORLD);
  REQUIRE(simulation.run().outcome == Outcome::stroke_out);
  Largest found;
  for (const PassSample &sample : simulation.samples())
  {
    found.force  = std::max(found.force, sample.ram_force);
    found.strain = std::max(found.strain, sample.width ? sample.width->largest_strain
                                                       : sample.outer_strain);
  }
  return found;
}

Case example(const std::string &name)
{
  const CaseReading reading = read_case(
      std::string(THROUGHBEND_EXAMPLES) + "/kestrel-haven/" + name + "/case.ini", {});
  REQUIRE(reading.value);
  return *reading.value;
}

Case finely(Case c)
{
  c.mesh.level                   = MeshLevel::fine;
  c.solver.largest_step          = 0.5;
  c.solver.penetration_tolerance = 2.5e-4;
  return c;
}
} // namespace

TEST_CASE("The standard level is within 1 % in force and 2 % in strain of finer ones",
          "[.][verify-long][levels]")
{
  Rung rung(
      "levels", "What the standard level is good for",
      "The same passes on the level fine (cells half as long, more layers) with "
      "steps of at most 0.5 mm and half the penetration, by this program: convergence "
      "is checked, not truth",
      Length::long_);
  const auto compare =
      [&](const std::string &name, const Largest &standard, const Largest &fine)
  {
    rung.row(name + ", largest ram force [kN]", fine.force / 1000, standard.force / 1000,
             within_percent(1));
    rung.row(name + ", largest strain of the convex face [-]", fine.strain, standard.strain,
             within_percent(2));
  };
  for (const char *name : {"sound-pass", "sound-weld", "soft-haz", "off-centre-coupon"})
  {
    const Case c = example(name);
    compare(name, largest<2>(c), largest<2>(finely(c)));
  }
  Case       body    = example("sound-pass");
  const auto coarser = largest<3>(body);
  body.mesh.level    = MeshLevel::fine;
  compare("sound-pass, a body", coarser, largest<3>(body));

  // The steps of the ironed stretch go with the cells, so that they are not set here.
  Case       thick    = over_thick(12.4);
  const auto standard = ironed_stretch(push(thick), 65, 85);
  thick.mesh.level    = MeshLevel::fine;
  const auto fine     = ironed_stretch(push(thick), 65, 85);
  rung.row("12.4 mm in 11.6 mm, mean force while the legs are ironed [kN]",
           fine.force / 1000, standard.force / 1000, within_percent(3));
  rung.row("12.4 mm in 11.6 mm, ripple of that force [-]", 0, standard.ripple,
           no_more(0.02));
  rung.note("Plane models where nothing else is said. The body's finer mesh is the level "
            "fine with its own steps; finer ones and more figures of a plain body: "
            "tests/benchmarks/TABLE.md. More thicknesses of ironed legs, and the "
            "mesh-converged force: `ironing_series.md`.");
}
