// The linear system of several ranks: singular is a value, everything else that goes wrong
// an exception on every rank, and the analysis that is kept does not change the solution.

#include "meshes/placed_coupon.h"
#include "solver/fem/distributed_system.h"
#include "solver/fem/equilibrium.h"
#include "solver/setup/set_up.h"
#include "tests/fem/small_coupon.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>

using namespace throughbend;

namespace
{
struct Bench
{
  Bench()
      : c(small_coupon<2>()), model(placed_coupon(c), MPI_COMM_WORLD),
        equilibrium(model, zone_materials(c))
  {
    Vector u(model.n_dofs()), unused(model.n_dofs());
    REQUIRE(equilibrium.add_forces(u, unused));
    right.reinit(model.n_dofs());
    for (unsigned i = 0; i < right.size(); ++i)
      right[i] = std::sin(i + 1.);
  }
  void assemble(LinearSystem &system, double drag)
  {
    system.clear();
    equilibrium.add_tangent(system);
    system.add_diagonal(drag, model.lumped_volume());
  }

  Case           c;
  CouponModel<2> model;
  Equilibrium<2> equilibrium;
  Vector         right;
};
} // namespace

TEST_CASE("Ranks answer a singular matrix with false and solve the next good one", "[mpi]")
{
  Bench                bench;
  DistributedSystem<2> system(bench.model);
  Vector               found;
  system.clear();
  CHECK_FALSE(system.solve(bench.right, found)); // nothing assembled
  for (const double drag : {1., 5e4, 1.})
  {
    bench.assemble(system, drag);
    REQUIRE(system.solve(bench.right, found));
    DistributedSystem<2> fresh(bench.model);
    Vector               expected;
    bench.assemble(fresh, drag);
    REQUIRE(fresh.solve(bench.right, expected));
    found -= expected;
    CHECK(found.linfty_norm() < 1e-9 * expected.linfty_norm());
  }
}

TEST_CASE("What is not a singular matrix is an exception on every rank", "[mpi]")
{
  Bench                bench;
  DistributedSystem<2> system(bench.model);
  Vector               found;
  bench.assemble(system, 1.);
  // An ordering that MUMPS would need us to supply: PETSc refuses, the matrix is good.
  PetscOptionsSetValue(nullptr, "-mat_mumps_icntl_7", "1");
  CHECK_THROWS_AS(system.solve(bench.right, found), std::runtime_error);
  PetscOptionsClearValue(nullptr, "-mat_mumps_icntl_7");
}
