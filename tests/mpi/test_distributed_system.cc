// The linear system of several ranks: singular is a value, everything else that goes wrong
// an exception on every rank, and the analysis that is kept does not change the solution.
// The systems of several ranks and that of one rank agree.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/distributed_system.h"
#include "solver/fem/equilibrium.h"
#include "solver/fem/gathered_system.h"
#include "solver/fem/serial_system.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <stdexcept>
#include <vector>

using namespace throughbend;

namespace
{
constexpr double tight = 1e-11; ///< residual over the right side [-]

template <int dim>
struct Bench
{
  explicit Bench(MPI_Comm communicator = MPI_COMM_WORLD)
      : c(small_coupon<dim>()), model(placed_coupon(c), communicator),
        equilibrium(model, zone_materials(c))
  {
    Vector u(model.n_dofs()), unused(model.n_dofs());
    REQUIRE(equilibrium.add_forces(u, unused));
    // The right side belongs to the unknowns, not to their numbers.
    Vector common(model.n_dofs());
    for (unsigned i = 0; i < common.size(); ++i)
      common[i] = std::sin(i + 1.);
    right = model.in_own_order(common);
  }
  void assemble(LinearSystem &system, double regularisation)
  {
    system.clear();
    equilibrium.add_tangent(system);
    system.add_diagonal(regularisation, model.lumped_volume());
  }
  /// In the common order.
  Vector solved(LinearSystem &system)
  {
    Vector found;
    assemble(system, 1.);
    REQUIRE(system.solve(right, found));
    return model.in_common_order(found);
  }

  Case             c;
  CouponModel<dim> model;
  Equilibrium<dim> equilibrium;
  Vector           right;
};

template <int dim>
Vector solved_alone()
{
  Bench<dim>   bench(MPI_COMM_SELF);
  ColumnSystem alone(std::make_shared<CompressedColumns>(bench.model));
  return bench.solved(alone);
}

double apart(Vector a, const Vector &b)
{
  a -= b;
  return a.linfty_norm() / b.linfty_norm();
}
} // namespace

TEST_CASE("Ranks answer a singular matrix with false and solve the next good one", "[mpi]")
{
  Bench<2>             bench;
  DistributedSystem<2> system(bench.model, SharedSolver::symmetric, tight);
  Vector               found;
  system.clear();
  CHECK_FALSE(system.solve(bench.right, found)); // nothing assembled
  for (const double regularisation : {1., 5e4, 1.})
  {
    bench.assemble(system, regularisation);
    REQUIRE(system.solve(bench.right, found));
    DistributedSystem<2> fresh(bench.model, SharedSolver::symmetric, tight);
    Vector               expected;
    bench.assemble(fresh, regularisation);
    REQUIRE(fresh.solve(bench.right, expected));
    found -= expected;
    CHECK(found.linfty_norm() < 1e-9 * expected.linfty_norm());
  }
}

TEST_CASE("What is not a singular matrix is an exception on every rank", "[mpi]")
{
  Bench<2>             bench;
  DistributedSystem<2> system(bench.model, SharedSolver::symmetric, tight);
  Vector               found;
  bench.assemble(system, 1.);
  // An ordering that MUMPS would need us to supply: PETSc refuses, the matrix is good.
  PetscOptionsSetValue(nullptr, "-mat_mumps_icntl_7", "1");
  CHECK_THROWS_AS(system.solve(bench.right, found), std::runtime_error);
  PetscOptionsClearValue(nullptr, "-mat_mumps_icntl_7");
}

TEMPLATE_TEST_CASE_SIG(
    "Shared out, gathered and alone the same equations have the same solution", "[mpi]",
    ((int dim), dim), 2, 3)
{
  Bench<dim>             bench;
  DistributedSystem<dim> shared(bench.model, SharedSolver::symmetric, tight);
  GatheredSystem<dim>    gathered(bench.model,
                                  [](const typename GatheredSystem<dim>::SharedMatrix &matrix)
                                  { return std::make_unique<ColumnSystem>(matrix); });
  const Vector           alone = solved_alone<dim>();
  CHECK(apart(bench.solved(shared), alone) < 1e-9);
  CHECK(apart(bench.solved(gathered), alone) < 1e-9);
}

TEMPLATE_TEST_CASE_SIG("The two-level cycle of ranks leads to the solution of one rank",
                       "[mpi]", ((int dim), dim), 2, 3)
{
  Bench<dim>             bench;
  DistributedSystem<dim> exact(bench.model, SharedSolver::two_level, tight);
  DistributedSystem<dim> usual(bench.model, SharedSolver::two_level, 1e-3);
  const Vector           alone = solved_alone<dim>();
  for (int again = 0; again < 2; ++again)
  {
    CHECK(apart(bench.solved(exact), alone) < 1e-8);
    CHECK(apart(bench.solved(usual), alone) < 0.02);
  }
  CHECK(exact.fallbacks() + usual.fallbacks() == 0);
}

TEST_CASE("Where the cycle does not lead on ranks factorise", "[mpi]")
{
  Bench<3>             bench;
  DistributedSystem<3> system(bench.model, SharedSolver::two_level, tight);
  Vector               found;
  system.clear();
  CHECK_FALSE(system.solve(bench.right, found)); // nothing assembled
  CHECK(system.fallbacks() == 1);
  CHECK(apart(bench.solved(system), solved_alone<3>()) < 1e-8);
  CHECK(system.fallbacks() == 1);
}

TEST_CASE("Factors that ranks keep lead to the solution of one rank", "[mpi]")
{
  Bench<3>             bench;
  DistributedSystem<3> system(bench.model, SharedSolver::two_level, tight);
  Vector               found, expected;
  system.clear();
  CHECK_FALSE(system.solve(bench.right, found)); // so LDL^T serves from here on
  for (const double regularisation : {1., 2., -3e4, 1.})
  {
    DistributedSystem<3> fresh(bench.model, SharedSolver::symmetric, tight);
    bench.assemble(fresh, regularisation);
    REQUIRE(fresh.solve(bench.right, expected));
    bench.assemble(system, regularisation);
    REQUIRE(system.solve(bench.right, found));
    CHECK(apart(found, expected) < 1e-8);
  }
  system.forget_factors();
  CHECK(apart(bench.solved(system), solved_alone<3>()) < 1e-8);
}

TEST_CASE("Each rank's share of the coarse space is that of one rank", "[mpi]")
{
  const Bench<3>               bench, alone(MPI_COMM_SELF);
  const CoarseSpace            shared = coarse_space(bench.model);
  const CoarseSpace            whole  = coarse_space(alone.model);
  const std::vector<unsigned> &order  = bench.model.common_number();
  // Numbers of corners differ with the ranks, so each is named by its unknown.
  const auto shares = [](const CoarseSpace &space, unsigned unknown, const auto &name)
  {
    std::map<unsigned, double> found;
    for (int k = space.starts[unknown]; k < space.starts[unknown + 1]; ++k)
    {
      const auto corner =
          std::find(space.number.begin(), space.number.end(), space.corner[k]);
      found[name(static_cast<unsigned>(corner - space.number.begin()))] = space.weight[k];
    }
    return found;
  };
  REQUIRE(shared.size == whole.size);
  for (const auto i : bench.model.dof_handler().locally_owned_dofs())
  {
    const auto own = static_cast<unsigned>(i);
    CHECK(shares(shared, own, [&](unsigned corner) { return order[corner]; }) ==
          shares(whole, order[own], [](unsigned corner) { return corner; }));
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
