// What one linear solve costs: the tangent in the middle of a pass of reference case R,
// given to every serial solver. Seconds by the clock, the least of three; the first solve,
// which includes the ordering, apart. Kept in TABLE.md.
//
//   solver_benchmark 2|3 quick|standard|fine [STEPS [LAYERS [CELL_SIZE]]]

#include "solver/fem/krylov_system.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <string>

using namespace throughbend;

namespace
{
double seconds()
{
  return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch())
      .count();
}

template <int dim>
int measure(MeshLevel level, int steps, int layers, double cell_size)
{
  Case c              = reference_case();
  c.mesh.dimension    = dim;
  c.mesh.level        = level;
  c.solver.step_limit = steps;
  c.mesh.layers       = layers;
  c.mesh.cell_size    = cell_size;
  PassSimulation<dim> simulation(set_up(c), MPI_COMM_SELF);
  simulation.run();
  PassEquations<dim>     &equations = simulation.equations();
  const CouponModel<dim> &model     = simulation.model();

  Vector                           right(model.n_dofs()), x;
  std::mt19937                     random(1);
  std::normal_distribution<double> number;
  for (double &value : right)
    value = number(random);

  using Factor         = KrylovSettings::Factor;
  const auto    matrix = [&] { return std::make_shared<CompressedColumns>(model); };
  ColumnSystem  klu(matrix());
  FrontalSystem umfpack(matrix());
  KrylovSystem  cholmod(matrix(), {Factor::simplicial, 1e-3});
  KrylovSystem  halved(matrix(), {Factor::halved, 1e-3});
  KrylovSystem  mumps(matrix(), {Factor::multifrontal, 1e-3});
  KrylovSystem  two_level(matrix(), {Factor::two_level, 1e-3}, coarse_space(model));
  std::printf("%u unknowns, after %d steps\n", model.n_dofs(), simulation.counts().steps);
  for (SerialSystem *system :
       {static_cast<SerialSystem *>(&klu), static_cast<SerialSystem *>(&umfpack),
        static_cast<SerialSystem *>(&cholmod), static_cast<SerialSystem *>(&halved),
        static_cast<SerialSystem *>(&mumps), static_cast<SerialSystem *>(&two_level)})
  {
    const bool takes_minutes =
        system == &klu || system == &umfpack || system == &cholmod || system == &halved;
    if (dim == 3 && takes_minutes && (system == &klu || model.n_dofs() > 50000))
      continue;
    double first = 0, least = 1e300, assembly = 1e300;
    for (int i = 0; i < 4; ++i)
    {
      const double start = seconds();
      system->clear();
      equations.equilibrium().add_tangent(*system);
      equations.contact().add_tangent(*system);
      const double assembled = seconds();
      if (!system->solve(right, x))
        std::printf("singular: ");
      const double took        = seconds() - assembled;
      assembly                 = std::min(assembly, assembled - start);
      (i == 0 ? first : least) = i == 0 ? took : std::min(least, took);
    }
    std::printf("%-24s assembly %8.4f  first %8.4f  then %8.4f",
                system->solver_name().c_str(), assembly, first, least);
    if (const auto *krylov = dynamic_cast<const KrylovSystem *>(system))
      std::printf("  GMRES %.1f, LU instead %d", krylov->iterations() / 4.,
                  krylov->fallbacks());
    std::printf("\n");
  }
  return EXIT_SUCCESS;
}
} // namespace

int main(int argc, char **argv)
{
  const dealii::Utilities::MPI::MPI_InitFinalize mpi(argc, argv, 1);
  if (argc < 3)
  {
    std::fprintf(stderr,
                 "solver_benchmark 2|3 quick|standard|fine [STEPS [LAYERS [CELL_SIZE]]]\n");
    return EXIT_FAILURE;
  }
  const std::string word   = argv[2];
  const MeshLevel   level  = word == "quick"  ? MeshLevel::quick
                             : word == "fine" ? MeshLevel::fine
                                              : MeshLevel::standard;
  const int         steps  = argc > 3 ? std::atoi(argv[3]) : 30;
  const int         layers = argc > 4 ? std::atoi(argv[4]) : 0;
  const double      size   = argc > 5 ? std::atof(argv[5]) : 0.;
  return argv[1][0] == '3' ? measure<3>(level, steps, layers, size)
                           : measure<2>(level, steps, layers, size);
}
