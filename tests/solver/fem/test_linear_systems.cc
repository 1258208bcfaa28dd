// The serial solvers against Gauss elimination on the same assembled matrix, which
// friction makes unsymmetric; singular matrices are a value, not an error.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/contact_assembly.h"
#include "solver/fem/equilibrium.h"
#include "solver/fem/krylov_system.h"
#include "solver/fem/serial_system.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/dense_system.h"
#include "tests/solver/fem/small_coupon.h"

#include <catch2/catch.hpp>
#include <deal.II/grid/grid_generator.h>

#include <array>
#include <cmath>
#include <memory>
#include <numeric>
#include <random>
#include <vector>

using namespace throughbend;

namespace
{
/// Both kinds of LDL^T and the two-level cycle, iterated on until little is left.
constexpr KrylovSettings tight_plane{KrylovSettings::Factor::simplicial, 1e-11},
    tight_space{KrylovSettings::Factor::multifrontal, 1e-11},
    tight_large{KrylovSettings::Factor::two_level, 1e-11};

/// Every serial solver, each with a matrix of its own.
struct Solvers
{
  template <int dim>
  explicit Solvers(const CouponModel<dim> &model)
      : klu(CompressedColumns(model)), umfpack(CompressedColumns(model)),
        cholmod(std::make_shared<CompressedColumns>(model), tight_plane),
        mumps(std::make_shared<CompressedColumns>(model), tight_space),
        two_level(std::make_shared<CompressedColumns>(model), tight_large,
                  coarse_space(model))
  {
  }
  std::array<LinearSystem *, 5> all()
  {
    return {&klu, &umfpack, &cholmod, &mumps, &two_level};
  }

  ColumnSystem  klu;
  FrontalSystem umfpack;
  KrylovSystem  cholmod, mumps, two_level;
};

/// A dented, partly plastic coupon under a slipping disc, as half model so that some
/// unknowns are held.
template <int dim>
struct Bench
{
  explicit Bench(const Case &on = half_case())
      : c(on), model(placed_coupon(c), MPI_COMM_WORLD),
        equilibrium(model, zone_materials(c)),
        contact(model,
                {{tool_at::plunger,
                  RigidProfile::disc({3, model.level() + 8 + 15 - 0.1}, 15), 0.4}},
                {105000, 52500, 2e-3, 0}),
        u(model.n_dofs()), right(model.n_dofs())
  {
    std::mt19937 random(12);
    Vector       unused(model.n_dofs());
    equilibrium.add_forces(u, unused);
    contact.add_forces(u, 0, unused);
    contact.accept();
    for (const auto &cell : model.cells())
      for (unsigned a = 0; a < model.n_nodes_per_cell(); ++a)
        u[cell.dofs[a]] = 0.05;
    shake(u, random, 0.03);
    REQUIRE(equilibrium.add_forces(u, unused));
    contact.add_forces(u, 0, unused);
    shake(right, random, 1000);
  }
  static Case half_case()
  {
    Case c       = small_coupon<dim>();
    c.mesh.model = ModelChoice::automatic;
    return c;
  }
  void assemble(LinearSystem &system, double regularisation)
  {
    system.clear();
    equilibrium.add_tangent(system);
    contact.add_tangent(system);
    system.add_diagonal(regularisation, model.lumped_volume());
  }

  /// Of the system's solution, against Gauss elimination on the same matrix; largest error
  /// over the largest entry [-].
  double error_of(LinearSystem &system, double regularisation)
  {
    DenseSystem<dim> dense(model);
    Vector           expected, found;
    assemble(dense, regularisation);
    dense.solve(right, expected);
    assemble(system, regularisation);
    REQUIRE(system.solve(right, found));
    found -= expected;
    return found.linfty_norm() / expected.linfty_norm();
  }

  /// By 2 % at constant volume: plastic, but no cell is out of shape.
  void stretch()
  {
    const double by[] = {0.02, -0.01, -0.01};
    for (unsigned i = 0; i < u.size(); ++i)
    {
      const unsigned k = model.component()[i];
      u[i]             = by[k] * model.nodes()[i][k];
    }
    Vector unused(u.size());
    REQUIRE(equilibrium.add_forces(u, unused));
    REQUIRE(equilibrium.energy().plastic_step > 0);
  }

  Case                 c;
  CouponModel<dim>     model;
  Equilibrium<dim>     equilibrium;
  ContactAssembly<dim> contact;
  Vector               u, right;
};
} // namespace

TEMPLATE_TEST_CASE_SIG(
    "Every serial solver solves an unsymmetric system like Gauss elimination",
    "[fem][solver]", ((int dim), dim), 2, 3)
{
  Bench<dim>       bench;
  DenseSystem<dim> dense(bench.model);
  bench.assemble(dense, 1.);
  double skew = 0;
  for (unsigned i = 0; i < bench.u.size(); ++i)
    for (unsigned j = 0; j < i; ++j)
      skew = std::max(skew, std::abs(dense.matrix()(i, j) - dense.matrix()(j, i)));
  CHECK(skew > 100); // otherwise this tests less than it says

  Vector expected, found;
  dense.solve(bench.right, expected);
  Solvers solvers(bench.model);
  for (LinearSystem *system : solvers.all())
  {
    INFO(system->solver_name());
    bench.assemble(*system, 1.);
    REQUIRE(system->solve(bench.right, found));
    for (unsigned i = 0; i < found.size(); ++i)
      if (bench.model.held()[i])
        CHECK(found[i] == 0);
    found -= expected;
    CHECK(found.linfty_norm() < 1e-7 * expected.linfty_norm());

    // Again with other numbers on the same pattern: old pivots must not leak through.
    bench.assemble(dense, 5e4);
    dense.solve(bench.right, expected);
    bench.assemble(*system, 5e4);
    REQUIRE(system->solve(bench.right, found));
    found -= expected;
    CHECK(found.linfty_norm() < 1e-7 * expected.linfty_norm());
    dense.clear();
    bench.assemble(dense, 1.);
    dense.solve(bench.right, expected);
  }
}

TEMPLATE_TEST_CASE_SIG("A model picks the solver meant for it", "[fem][solver]",
                       ((int dim), dim), 2, 3)
{
  Bench<dim> bench;
  const auto system = make_linear_system(bench.model);
  CHECK(system->solver_name() == (dim == 2 ? "KLU" : "MUMPS LDL^T + GMRES"));
  DenseSystem<dim> dense(bench.model);
  bench.assemble(dense, 1.);
  bench.assemble(*system, 1.);
  Vector found, rest(bench.right.size());
  REQUIRE(system->solve(bench.right, found));
  dense.matrix().vmult(rest, found);
  rest -= bench.right;
  double size = 0, left = 0; // of the unknowns that are solved for
  for (unsigned i = 0; i < rest.size(); ++i)
    if (!bench.model.held()[i])
    {
      size += bench.right[i] * bench.right[i];
      left += rest[i] * rest[i];
    }
  // What a Newton iteration is promised.
  CHECK(std::sqrt(left / size) <= KrylovSettings::space().tolerance);
}

TEST_CASE("A large plane model is solved with the factors of its symmetric part",
          "[fem][solver]")
{
  Case c           = small_coupon<2>();
  c.mesh.layers    = 16;
  c.mesh.cell_size = 0.25;
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  REQUIRE(model.n_dofs() > 8000);
  CHECK(make_linear_system(model)->solver_name() == "CHOLMOD LDL^T by halves + GMRES");
}

TEMPLATE_TEST_CASE_SIG("Where GMRES does not get there the whole matrix is factorised",
                       "[fem][solver]", ((int dim), dim), 2, 3)
{
  Bench<dim> bench;
  // A large unsymmetric part, of which the factors of the symmetric one know nothing.
  const unsigned        n = dim * bench.model.n_nodes_per_cell();
  std::vector<unsigned> rows(n);
  std::iota(rows.begin(), rows.end(), 0u);
  std::vector<double>                    skew(n * n);
  std::mt19937                           random(8);
  std::uniform_real_distribution<double> number(-1e7, 1e7);
  for (unsigned i = 0; i < n; ++i)
    for (unsigned j = 0; j < i; ++j)
      skew[j * n + i] = -(skew[i * n + j] = number(random));
  const auto assemble = [&](LinearSystem &system)
  {
    bench.assemble(system, 1.);
    for (unsigned cell = 0; cell < bench.model.cells().size(); ++cell)
      system.add(cell, rows, skew.data());
  };
  DenseSystem<dim> dense(bench.model);
  assemble(dense);
  Vector expected, found;
  dense.solve(bench.right, expected);
  for (const auto factor :
       {KrylovSettings::Factor::simplicial, KrylovSettings::Factor::halved,
        KrylovSettings::Factor::multifrontal, KrylovSettings::Factor::two_level})
  {
    KrylovSystem system(std::make_shared<CompressedColumns>(bench.model), {factor, 1e-3},
                        coarse_space(bench.model));
    assemble(system);
    REQUIRE(system.solve(bench.right, found));
    CHECK(system.fallbacks() == 1);
    found -= expected;
    CHECK(found.linfty_norm() < 1e-7 * expected.linfty_norm());
  }
}

TEST_CASE(
    "The factors of the symmetric part leave few iterations, also when it is indefinite",
    "[fem][solver]")
{
  Bench<3>     bench;
  KrylovSystem system(std::make_shared<CompressedColumns>(bench.model),
                      KrylovSettings::space());
  Vector       found;
  bench.assemble(system, 1.);
  REQUIRE(system.solve(bench.right, found));
  CHECK(system.fallbacks() == 0);
  CHECK(system.iterations() <= 12);
  // So negative a diagonal has eigenvalues of both signs: Cholesky would stop.
  bench.assemble(system, -3e4);
  REQUIRE(system.solve(bench.right, found));
  CHECK(system.fallbacks() == 0);
  CHECK(system.iterations() <= 24);
}

TEST_CASE("Once the cycle has missed LDL^T serves until the coupon has moved on",
          "[fem][solver]")
{
  Bench<3>     bench;
  KrylovSystem system(std::make_shared<CompressedColumns>(bench.model),
                      KrylovSettings::large_space(), coarse_space(bench.model));
  bench.stretch();
  const double indefinite = -3e4; // Gauss-Seidel runs away
  CHECK(bench.error_of(system, indefinite) < 0.01);
  REQUIRE(system.fallbacks() == 1);
  CHECK(bench.error_of(system, 1.01 * indefinite) < 0.01);
  CHECK(system.fallbacks() == 2);
  CHECK(system.factorisations() == 1); // of the coarse matrix: the cycle was not tried
  system.forget_factors();
  CHECK(bench.error_of(system, 1.) < 0.01);
  CHECK(system.fallbacks() == 2);
  CHECK(system.factorisations() == 2);
}

TEST_CASE("Kept factors serve while they lead there", "[fem][solver]")
{
  Bench<3>       bench;
  KrylovSettings settings = tight_space;
  settings.keeps_factors  = true;
  KrylovSystem system(std::make_shared<CompressedColumns>(bench.model), settings);
  const auto   factorisations = [&](double regularisation)
  {
    CHECK(bench.error_of(system, regularisation) < 1e-7);
    return system.factorisations();
  };
  CHECK(factorisations(1.) == 1);
  CHECK(factorisations(2.) == 1);
  CHECK(factorisations(-3e4) == 2); // too far from the old matrix
  system.forget_factors();
  CHECK(factorisations(-3e4) == 3);
  CHECK(system.fallbacks() == 0);
}

TEMPLATE_TEST_CASE_SIG("The coarse space has every linear displacement", "[fem][solver]",
                       ((int dim), dim), 2, 3)
{
  dealii::Triangulation<dim>  mesh;
  const std::vector<unsigned> three = {3, 2, 2}, cells(three.begin(), three.begin() + dim);
  dealii::Point<dim>          low, high;
  for (unsigned k = 0; k < dim; ++k)
    high[k] = 3 - k;
  dealii::GridGenerator::subdivided_hyper_rectangle(mesh, cells, low, high);
  const auto on_the_left = [](const dealii::Point<dim> &node, unsigned component)
  { return component == 0 && node[0] == 0; };
  const CouponModel<dim> model(mesh, on_the_left, MPI_COMM_WORLD);
  const CoarseSpace      space = coarse_space(model);

  // One of each direction at every corner, but for those held.
  const int corners = dim == 2 ? 4 * 3 : 4 * 3 * 3;
  CHECK(space.size == dim * corners - corners / 4);
  const auto field = [&](unsigned unknown)
  {
    const dealii::Point<dim> &x = model.nodes()[unknown];
    return model.component()[unknown] == 0
               ? 7 * x[0] // 0 where it is held
               : 2 - 3 * x[0] + 5 * x[1] + (dim - 2) * x[dim - 1];
  };
  std::vector<double> at_corner(static_cast<std::size_t>(space.size), std::nan(""));
  for (unsigned i = 0; i < model.n_dofs(); ++i)
    if (space.starts[i + 1] == space.starts[i] + 1 && space.weight[space.starts[i]] == 1)
      at_corner[space.corner[space.starts[i]]] = field(i);
  for (unsigned i = 0; i < model.n_dofs(); ++i)
  {
    double value = 0;
    for (int k = space.starts[i]; k < space.starts[i + 1]; ++k)
      value += space.weight[k] * at_corner[space.corner[k]];
    CHECK(value == Approx(field(i)).margin(1e-12));
    if (model.held()[i])
      CHECK(space.starts[i] == space.starts[i + 1]);
  }
}

TEST_CASE("A two-level cycle leaves few iterations, whatever the size of the cells",
          "[fem][solver]")
{
  std::vector<int> iterations;
  for (const int layers : {2, 4})
  {
    Case c           = Bench<3>::half_case();
    c.mesh.layers    = layers;
    c.mesh.cell_size = 6. / layers;
    Bench<3> bench(c);
    bench.stretch();
    KrylovSystem system(std::make_shared<CompressedColumns>(bench.model),
                        KrylovSettings::large_space(), coarse_space(bench.model));
    Vector       found;
    bench.assemble(system, 1.);
    REQUIRE(system.solve(bench.right, found));
    INFO(bench.model.n_dofs() << " unknowns");
    CHECK(system.fallbacks() == 0);
    iterations.push_back(system.iterations());
  }
  CHECK(iterations[0] <= 45);
  CHECK(iterations[1] <= iterations[0] + 5);
}

TEST_CASE("A large body is solved by a two-level cycle, unless its cells are slender",
          "[fem][solver]")
{
  dealii::Triangulation<3> cubes, plates;
  dealii::GridGenerator::subdivided_hyper_rectangle(cubes, {32, 12, 8}, {0., 0., 0.},
                                                    {32., 12., 8.});
  dealii::GridGenerator::subdivided_hyper_rectangle(plates, {32, 12, 8}, {0., 0., 0.},
                                                    {32., 12., 80.});
  const auto           free = [](const dealii::Point<3> &, unsigned) { return false; };
  const CouponModel<3> even(cubes, free, MPI_COMM_WORLD),
      uneven(plates, free, MPI_COMM_WORLD);
  REQUIRE(even.n_dofs() > 60000);
  CHECK(make_linear_system(even)->solver_name() == "two-level cycle + GMRES");
  CHECK(make_linear_system(uneven)->solver_name() == "MUMPS LDL^T + GMRES");
}

TEST_CASE("A singular matrix is answered with false, and the next good one is solved",
          "[fem][solver]")
{
  Bench<2> bench;
  Solvers  solvers(bench.model);
  for (LinearSystem *system : solvers.all())
  {
    INFO(system->solver_name());
    Vector found;
    // Nothing assembled but the held unknowns' ones.
    system->clear();
    CHECK_FALSE(system->solve(bench.right, found));
    // Then a good one.
    bench.assemble(*system, 1.);
    CHECK(system->solve(bench.right, found));
    // A whole row and column missing: one unknown that nothing holds.
    system->clear();
    Vector diagonal(bench.u.size());
    for (double &value : diagonal)
      value = 1;
    for (unsigned i = 0; i < diagonal.size(); ++i)
      if (!bench.model.held()[i])
      {
        diagonal[i] = 0;
        break;
      }
    system->add_diagonal(1., diagonal);
    CHECK_FALSE(system->solve(bench.right, found));
    bench.assemble(*system, 1.);
    CHECK(system->solve(bench.right, found));
  }
}

TEST_CASE("A coupon that floats free under a net force has no solution", "[fem][solver]")
{
  // No tools, no plane of symmetry, no regularisation: two translations and a rotation are
  // free.
  const Case           c = small_coupon<2>();
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<2>       equilibrium(model, zone_materials(c));
  Vector               u(model.n_dofs()), unused(model.n_dofs()), right(model.n_dofs());
  REQUIRE(equilibrium.add_forces(u, unused));
  for (double &value : right)
    value = 1;
  Solvers solvers(model);
  for (LinearSystem *system : solvers.all())
  {
    INFO(system->solver_name());
    system->clear();
    equilibrium.add_tangent(*system);
    Vector     found;
    const bool solved = system->solve(right, found);
    // Rounding may hide the zero pivots; then the answer is at least absurdly large.
    CHECK((!solved || found.linfty_norm() > 1e3));
  }
}
