// What the mesh level `standard` is good for: largest ram force and largest strain of the
// convex face of whole passes against the same passes on finer meshes with finer steps.
// Plain, welded, softened, off-centre and over-thick coupons in the plane; a plain and a
// welded one as bodies.

#include "inputs/case_reader.h"
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
  double strain = 0; ///< log, along the convex face, in the mid-plane of a body [-]
  double edge   = 0; ///< the same at the edges of a body [-]
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
    found.strain = std::max(found.strain, sample.outer_strain);
    if (sample.width)
      found.edge = std::max(found.edge, sample.width->edge_strain);
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
      "The same passes on the level fine (cells half as long, twice the layers) with "
      "steps of at most 0.5 mm and half the penetration, by this program: convergence "
      "is checked, not truth",
      Length::long_);
  for (const char *name :
       {"sound-pass", "sound-weld", "soft-haz", "off-centre-coupon", "off-centre-weld"})
  {
    const Case    c        = example(name);
    const Largest standard = largest<2>(c), fine = largest<2>(finely(c));
    rung.row(std::string(name) + ", largest ram force [kN]", fine.force / 1000,
             standard.force / 1000, within_percent(1));
    rung.row(std::string(name) + ", largest strain of the convex face [-]", fine.strain,
             standard.strain, within_percent(2));
  }
  const auto ironing = [](const Case &c) { return ironed_stretch(push(c), 65, 85).force; };
  rung.row("12.4 mm in 11.6 mm, mean force while the legs are ironed [kN]",
           ironing(finely(over_thick(12.4))) / 1000, ironing(over_thick(12.4)) / 1000,
           within_percent(3));
  for (const char *name : {"sound-pass", "sound-weld"})
  {
    const Case c               = example(name);
    Case       fine            = c;
    fine.mesh.level            = MeshLevel::fine;
    const Largest     standard = largest<3>(c), finer = largest<3>(fine);
    const std::string body = std::string(name) + " as a body, ";
    rung.row(body + "largest ram force [kN]", finer.force / 1000, standard.force / 1000,
             within_percent(1));
    rung.row(body + "largest strain of the convex face at mid-width [-]", finer.strain,
             standard.strain, within_percent(2));
    rung.row(body + "largest strain of the convex face at the edges [-]", finer.edge,
             standard.edge, within_percent(2));
  }
  rung.note("Bodies: the level fine with its own steps. Of the plain one 122 000 unknowns "
            "give the same force within 0.3 % up to its peak (tests/benchmarks/TABLE.md).");
  rung.note("While the legs are ironed 3 % is asked for: the series over thickness, mesh "
            "and step stands in `ironing_series.md`.");
}
