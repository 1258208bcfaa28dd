// What a pass costs: reference case R on three meshes and as a full model, with the split
// of the time, printed as a table and written as CSV. Times of one run compare with each
// other only; counts compare with other days.
//
//   pass_benchmark [FILE.csv]      pass_benchmark.csv if not given

#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <cmath>
#include <cstdio>
#include <cstdlib>

using namespace throughbend;

namespace
{
struct Cost
{
  const char *name = "";
  unsigned    dofs = 0;
  PassCounts  counts;
  WorkCount   work;
  double      peak    = 0; ///< [N/mm]
  Outcome     outcome = Outcome::undecided;
};

Cost measure(const char *name, MeshLevel level, ModelChoice model)
{
  Case c       = reference_case();
  c.mesh.level = level;
  c.mesh.model = model;
  PassSimulation<2> simulation(set_up(c), MPI_COMM_WORLD);
  Cost              cost;
  cost.name    = name;
  cost.outcome = simulation.run().outcome;
  cost.dofs    = simulation.model().n_dofs();
  cost.counts  = simulation.counts();
  cost.work    = simulation.equations().work();
  for (const PassSample &sample : simulation.samples())
    cost.peak = std::max(cost.peak, sample.ram_force / c.coupon.width);
  return cost;
}
} // namespace

int main(int argc, char **argv)
{
  const dealii::Utilities::MPI::MPI_InitFinalize mpi(argc, argv, 1);
  const char *const file = argc > 1 ? argv[1] : "pass_benchmark.csv";
  std::FILE *const  csv  = std::fopen(file, "w");
  if (csv == nullptr)
  {
    std::fprintf(stderr, "pass_benchmark: cannot write %s\n", file);
    return EXIT_FAILURE;
  }
  const Cost costs[] = {measure("quick", MeshLevel::quick, ModelChoice::automatic),
                        measure("standard", MeshLevel::standard, ModelChoice::automatic),
                        measure("fine", MeshLevel::fine, ModelChoice::automatic),
                        measure("standard, full", MeshLevel::standard, ModelChoice::full)};

  std::printf("%-15s %6s %7s %8s %8s %8s %6s %6s %8s %6s %7s %7s %8s %-10s\n", "mesh",
              "dofs", "wall/s", "assembly", "contact", "factor", "other", "steps",
              "refusals", "iter", "factors", "it/step", "peak", "outcome");
  std::fprintf(csv, "mesh,dofs,wall [s],assembly [s],contact [s],factorisation [s],"
                    "other [s],steps,refusals,iterations,factorisations,"
                    "iterations per step,peak force [N/mm],outcome\n");
  for (const Cost &cost : costs)
  {
    const WorkCount &w     = cost.work;
    const double     other = cost.counts.seconds - w.assembly - w.contact - w.solution;
    const double     per_step =
        cost.counts.steps > 0 ? double(cost.counts.iterations) / cost.counts.steps : 0.;
    const std::string outcome = to_text(cost.outcome);
    std::printf(
        "%-15s %6u %7.3f %8.3f %8.3f %8.3f %6.3f %6d %8d %6d %7d %7.2f %8.2f %-10s\n",
        cost.name, cost.dofs, cost.counts.seconds, w.assembly, w.contact, w.solution, other,
        cost.counts.steps, cost.counts.refusals, cost.counts.iterations, w.factorisations,
        per_step, cost.peak, outcome.c_str());
    std::fprintf(csv, "\"%s\",%u,%.4f,%.4f,%.4f,%.4f,%.4f,%d,%d,%d,%d,%.3f,%.3f,%s\n",
                 cost.name, cost.dofs, cost.counts.seconds, w.assembly, w.contact,
                 w.solution, other, cost.counts.steps, cost.counts.refusals,
                 cost.counts.iterations, w.factorisations, per_step, cost.peak,
                 outcome.c_str());
  }
  std::fclose(csv);
  const Cost  &standard = costs[1], &fine = costs[2];
  const double times = fine.counts.seconds / standard.counts.seconds;
  const double each  = times * standard.work.factorisations / fine.work.factorisations;
  const double more  = std::log(double(fine.dofs) / standard.dofs);
  std::printf("fine against standard: %.2f times the time, dofs^%.2f; per factorisation "
              "%.2f times, dofs^%.2f\n",
              times, std::log(times) / more, each, std::log(each) / more);
  for (const Cost &cost : costs)
    if (cost.outcome != Outcome::through)
      return EXIT_FAILURE; // then the times are not those of a pass
  return EXIT_SUCCESS;
}
