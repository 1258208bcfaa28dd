// What the mesh level `standard` is good for: largest ram force and largest strain of the
// convex face of whole passes against the same passes on finer meshes with finer steps.
// Plain, welded and softened coupons in the plane.

#include "inputs/keys/case_reader.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
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
  double strain = 0; ///< log, along the convex face [-]
};

/// Up to where force and strain have had their largest values: the travel of all these
/// cases is longer.
constexpr double far_enough = 46; // [mm]

Largest largest(Case c)
{
  c.ram.stroke = far_enough;
  PassSimulation<2> simulation(set_up(c), MPI_COMM_WORLD);
  REQUIRE(simulation.run().outcome == Outcome::stroke_out);
  Largest found;
  for (const PassSample &sample : simulation.samples())
  {
    found.force  = std::max(found.force, sample.ram_force);
    found.strain = std::max(found.strain, sample.outer_strain);
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
  for (const char *name : {"sound-pass", "sound-weld", "soft-haz"})
  {
    const Case    c        = example(name);
    const Largest standard = largest(c), fine = largest(finely(c));
    rung.row(std::string(name) + ", largest ram force [kN]", fine.force / 1000,
             standard.force / 1000, within_percent(1));
    rung.row(std::string(name) + ", largest strain of the convex face [-]", fine.strain,
             standard.strain, within_percent(2));
  }
  rung.note("Plane models. Legs that are ironed: `ironing_series.md`; a plain body: "
            "tests/benchmarks/TABLE.md.");
}
