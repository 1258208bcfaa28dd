// The two-level cycle, each rank sweeping what it owns: where ranks meet they do not push
// each other away from the solution.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/distributed_matrix.h"
#include "solver/fem/distributed_system.h"
#include "solver/fem/equilibrium.h"
#include "solver/fem/rank_cycle.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"

#include <catch2/catch.hpp>
#include <deal.II/lac/petsc_vector.h>

#include <cmath>

using namespace throughbend;

namespace
{
/// Enough cells for three ranks, each with neighbours that it shares many nodes with.
struct Strip
{
  Strip()
      : c(strip()), model(placed_coupon(c), MPI_COMM_WORLD),
        equilibrium(model, zone_materials(c)), matrix(model)
  {
    // Stretched by 2 % at constant volume: metal that flows couples its nodes the most.
    Vector       u(model.n_dofs()), unused(model.n_dofs());
    const double stretch[] = {0.02, -0.01, -0.01};
    for (unsigned i = 0; i < u.size(); ++i)
      u[i] = stretch[model.component()[i]] * model.nodes()[i][model.component()[i]];
    REQUIRE(equilibrium.add_forces(u, unused));
    REQUIRE(equilibrium.energy().plastic_step > 0);
    AddsTo system(matrix);
    equilibrium.add_tangent(system);
    matrix.add_diagonal(1., model.lumped_volume()); // nothing else holds its height
    matrix.finish();
  }
  static Case strip()
  {
    Case c           = small_coupon<3>();
    c.mesh.layers    = 2;
    c.mesh.cell_size = 2;
    return c;
  }
  /// A matrix as what add_tangent() adds to.
  struct AddsTo : LinearSystem
  {
    explicit AddsTo(DistributedMatrix &to) : matrix(to) {}
    void clear() override { matrix.clear(); }
    void add(unsigned cell, const std::vector<unsigned> &rows, const double *m) override
    {
      matrix.add(cell, rows, m);
    }
    void add_cells(unsigned first, unsigned n_cells, const double *m, unsigned) override
    {
      matrix.add_cells(first, n_cells, m);
    }
    void               add_coupling(std::size_t, const double *) override {}
    void               add_diagonal(double, const Vector &) override {}
    bool               solve(const Vector &, Vector &) override { return false; }
    std::string        solver_name() const override { return ""; }
    DistributedMatrix &matrix;
  };
  using Vec = dealii::PETScWrappers::MPI::Vector;

  Vec vector() const { return Vec(matrix.rows(), model.communicator()); }

  Case              c;
  CouponModel<3>    model;
  Equilibrium<3>    equilibrium;
  DistributedMatrix matrix;
};
} // namespace

TEST_CASE("No cycle of ranks leads away from the solution", "[mpi]")
{
  Strip     strip;
  RankCycle cycle(strip.model.communicator(), coarse_space(strip.model),
                  strip.matrix.rows());
  cycle.take(strip.matrix.mat());
  // The solution is 0. Where each sweep is (M + M^T - A) > 0 (Baker et al. 2011, see the
  // header) the energy of what is left of a start that swings from node to node falls.
  Strip::Vec left = strip.vector(), right = strip.vector(), step = strip.vector();
  for (const auto i : strip.matrix.rows())
    left(i) = strip.model.held()[i] ? 0. : std::sin(7. * static_cast<double>(i));
  left.compress(dealii::VectorOperation::insert);
  const auto energy = [&]
  {
    MatMult(strip.matrix.mat(), left, right);
    return right * left;
  };
  double before = energy();
  REQUIRE(before > 0);
  for (int i = 0; i < 20; ++i)
  {
    cycle.apply(right, step);
    left -= step;
    const double now = energy();
    INFO("cycle " << i << ": " << now / before);
    CHECK(now < before);
    before = now;
  }
}
