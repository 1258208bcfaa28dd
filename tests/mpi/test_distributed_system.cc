// The linear system of several ranks: singular is a value, everything else that goes wrong
// an exception on every rank, and the analysis that is kept does not change the solution.
// The two systems of several ranks and that of one rank agree.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/distributed_system.h"
#include "solver/fem/equilibrium.h"
#include "solver/fem/gathered_system.h"
#include "solver/fem/serial_system.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"

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
  void assemble(LinearSystem &system, double regularisation)
  {
    system.clear();
    equilibrium.add_tangent(system);
    system.add_diagonal(regularisation, model.lumped_volume());
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
  for (const double regularisation : {1., 5e4, 1.})
  {
    bench.assemble(system, regularisation);
    REQUIRE(system.solve(bench.right, found));
    DistributedSystem<2> fresh(bench.model);
    Vector               expected;
    bench.assemble(fresh, regularisation);
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

TEST_CASE("Shared out, gathered and alone the same equations have the same solution",
          "[mpi]")
{
  Bench                bench;
  DistributedSystem<2> shared(bench.model);
  GatheredSystem<2> gathered(bench.model, [](const GatheredSystem<2>::SharedMatrix &matrix)
                             { return std::make_unique<ColumnSystem>(matrix); });
  Vector            u_shared, u_gathered, u_alone;
  bench.assemble(shared, 1.);
  bench.assemble(gathered, 1.);
  REQUIRE(shared.solve(bench.right, u_shared));
  REQUIRE(gathered.solve(bench.right, u_gathered));

  const CouponModel<2> model(placed_coupon(bench.c), MPI_COMM_SELF);
  Equilibrium<2>       equilibrium(model, zone_materials(bench.c));
  Vector               u(model.n_dofs()), unused(model.n_dofs());
  REQUIRE(equilibrium.add_forces(u, unused));
  CompressedColumns matrix(model);
  ColumnSystem      alone(std::move(matrix));
  alone.clear();
  equilibrium.add_tangent(alone);
  alone.add_diagonal(1., model.lumped_volume());
  // The right side belongs to the unknowns, not to their numbers.
  REQUIRE(alone.solve(bench.model.in_common_order(bench.right), u_alone));
  const double size = u_alone.linfty_norm();
  for (Vector *found : {&u_shared, &u_gathered})
  {
    *found = bench.model.in_common_order(*found);
    *found -= u_alone;
    CHECK(found->linfty_norm() < 1e-9 * size);
  }
}

TEST_CASE("On one rank the common order of unknowns is the model's own", "[mpi]")
{
  const CouponModel<2> plane(placed_coupon(small_coupon<2>()), MPI_COMM_SELF);
  const CouponModel<3> body(placed_coupon(small_coupon<3>()), MPI_COMM_SELF);
  for (unsigned i = 0; i < plane.n_dofs(); ++i)
    REQUIRE(plane.common_number()[i] == i);
  for (unsigned i = 0; i < body.n_dofs(); ++i)
    REQUIRE(body.common_number()[i] == i);
}
