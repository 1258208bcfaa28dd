// What a step of a large body costs on several ranks and on one: reference case R in 3D.
// Seconds by the clock, mebibytes at most of each rank. Kept in TABLE.md.
//
//   mpirun -np RANKS rank_benchmark STEPS LAYERS [CELL_SIZE]

#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <sys/resource.h>

#include <cstdio>
#include <cstdlib>
#include <vector>

using namespace throughbend;

namespace
{
double mebibytes()
{
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  return static_cast<double>(used.ru_maxrss) / 1024;
}

/// Of each rank, on the first.
std::vector<double> of_all(const double value, const int ranks)
{
  std::vector<double> values(static_cast<std::size_t>(ranks));
  MPI_Gather(&value, 1, MPI_DOUBLE, values.data(), 1, MPI_DOUBLE, 0, MPI_COMM_WORLD);
  return values;
}
} // namespace

int main(int argc, char **argv)
{
  const dealii::Utilities::MPI::MPI_InitFinalize mpi(argc, argv, 1);
  if (argc < 3)
  {
    std::fprintf(stderr, "rank_benchmark STEPS LAYERS [CELL_SIZE]\n");
    return EXIT_FAILURE;
  }
  Case c              = reference_case();
  c.mesh.dimension    = 3;
  c.mesh.level        = MeshLevel::fine;
  c.solver.step_limit = std::atoi(argv[1]);
  c.mesh.layers       = std::atoi(argv[2]);
  c.mesh.cell_size    = argc > 3 ? std::atof(argv[3]) : 0;

  const int ranks =
      static_cast<int>(dealii::Utilities::MPI::n_mpi_processes(MPI_COMM_WORLD));
  const double      start = MPI_Wtime();
  PassSimulation<3> pass(set_up(c), MPI_COMM_WORLD);
  const double      ready = of_all(mebibytes(), ranks)[0];
  const double      made  = MPI_Wtime() - start;
  pass.run();
  const double              took   = MPI_Wtime() - start - made;
  const std::vector<double> memory = of_all(mebibytes(), ranks);
  const WorkCount          &work   = pass.equations().work();
  if (dealii::Utilities::MPI::this_mpi_process(MPI_COMM_WORLD) != 0)
    return EXIT_SUCCESS;
  std::printf(
      "%d ranks, %u unknowns, %s: made ready in %.1f s (%.0f MiB); %d steps in %.1f s, "
      "%d iterations, %d solves; assembly %.2f s, contact %.2f s, solution %.2f s; "
      "last force %.1f N; MiB",
      ranks, pass.model().n_dofs(), pass.equations().solver_name().c_str(), made, ready,
      pass.counts().steps, took, pass.counts().iterations, work.factorisations,
      work.assembly, work.contact, work.solution, pass.samples().back().ram_force);
  for (const double each : memory)
    std::printf(" %.0f", each);
  std::printf("\n");
}
