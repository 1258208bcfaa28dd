// Internal forces and their tangent on whole meshes: difference quotients with plastic
// history, rigid motions, and the patch test (Irons & Razzaque 1972, in: The Mathematical
// Foundations of the Finite Element Method; meshes here are rectangles of unequal size,
// which is what the coupon's mesher makes).

#include "meshes/setup/placed_coupon.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"
#include "tests/solver/fem/tangent_quotient.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace throughbend;

namespace
{
/// u = A X at every node.
template <int dim>
Vector linear_field(const CouponModel<dim> &model, const Matrix3 &A)
{
  Vector                          u(model.n_dofs());
  std::vector<std::set<unsigned>> components(dim);
  for (const auto &cell : model.cells())
    for (unsigned c = 0; c < dim; ++c)
      for (unsigned a = 0; a < model.n_nodes_per_cell(); ++a)
        components[c].insert(cell.dofs[c * model.n_nodes_per_cell() + a]);
  for (unsigned c = 0; c < dim; ++c)
    for (const unsigned dof : components[c])
      for (unsigned k = 0; k < dim; ++k)
        u[dof] += A[c][k] * model.nodes()[dof][k];
  return u;
}

/// True where a node lies inside the coupon, not on its surface.
template <int dim>
std::vector<bool> interior(const Case &c, const CouponModel<dim> &model)
{
  std::vector<bool> inside(model.n_dofs());
  constexpr double  close = 1e-9;
  for (unsigned i = 0; i < model.n_dofs(); ++i)
  {
    const auto &X = model.nodes()[i];
    inside[i]     = std::abs(X[0]) < c.coupon.length / 2 - close &&
                X[1] > model.level() + close &&
                X[1] < model.level() + c.coupon.thickness - close;
    if (dim == 3)
      inside[i] =
          inside[i] && X[dim - 1] > close && X[dim - 1] < c.coupon.width / 2 - close;
  }
  return inside;
}
} // namespace

TEMPLATE_TEST_CASE_SIG("The whole mesh's tangent is the derivative of its forces, with "
                       "plastic history and several zones",
                       "[fem][tangent]", ((int dim), dim), 2, 3)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<dim>       equilibrium(model, zone_materials(c));
  std::mt19937           random(dim);
  Vector                 u(model.n_dofs());

  const auto [elastic, elastic_skew] = tangent_errors(model, equilibrium, u);
  CHECK(elastic < 1e-6);
  CHECK(elastic_skew < 1e-12);
  for (int step = 0; step < 3; ++step)
  {
    shake(u, random, dim == 2 ? 0.06 : 0.12);
    const auto [error, skew] = tangent_errors(model, equilibrium, u);
    INFO("step " << step << ": error " << error << ", asymmetry " << skew);
    CHECK(error < 1e-6);
    CHECK(skew < 1e-12);
    forces(equilibrium, u);
    CHECK(equilibrium.energy().plastic_step > 0);
    equilibrium.history().accept();
  }
  // A small step back: some points unload, others go on.
  shake(u, random, 1e-3);
  const auto [error, skew] = tangent_errors(model, equilibrium, u);
  CHECK(error < 1e-6);
  CHECK(skew < 1e-12);
}

TEMPLATE_TEST_CASE_SIG("Turning the whole coupon gives no force", "[fem]", ((int dim), dim),
                       2, 3)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<dim>       equilibrium(model, zone_materials(c));
  for (const double degree : {10., 90., 180., 275.})
  {
    const double  a = degree / 180 * 3.14159265358979323846;
    const Matrix3 A = {
        {{std::cos(a) - 1, -std::sin(a), 0}, {std::sin(a), std::cos(a) - 1, 0}, {0, 0, 0}}};
    const Vector f = forces(equilibrium, linear_field(model, A));
    CHECK(f.linfty_norm() < 1e-7); // [N]; a stress of 1 MPa would give some 10 N
    CHECK(equilibrium.energy().plastic_step == 0);
    CHECK(equilibrium.energy().elastic < 1e-12);
    equilibrium.history().accept();
  }
}

TEMPLATE_TEST_CASE_SIG("A stressed coupon that turns takes its forces along", "[fem]",
                       ((int dim), dim), 2, 3)
{
  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<dim>       equilibrium(model, zone_materials(c));
  std::mt19937           random(6);
  Vector                 u(model.n_dofs());
  shake(u, random, 0.1);
  const Vector straight = forces(equilibrium, u);
  const double a = 1.1, cosine = std::cos(a), sine = std::sin(a);
  Vector       turned(u.size()), expected(u.size());
  for (const auto &cell : model.cells())
    for (unsigned n = 0; n < model.n_nodes_per_cell(); ++n)
    {
      const unsigned i = cell.dofs[n], j = cell.dofs[model.n_nodes_per_cell() + n];
      const double   x = model.nodes()[i][0] + u[i], y = model.nodes()[j][1] + u[j];
      turned[i]   = cosine * x - sine * y - model.nodes()[i][0];
      turned[j]   = sine * x + cosine * y - model.nodes()[j][1];
      expected[i] = cosine * straight[i] - sine * straight[j];
      expected[j] = sine * straight[i] + cosine * straight[j];
      if (dim == 3)
      {
        const unsigned k = cell.dofs[2 * model.n_nodes_per_cell() + n];
        turned[k]        = u[k];
        expected[k]      = straight[k];
      }
    }
  Vector difference = forces(equilibrium, turned);
  difference -= expected;
  CHECK(difference.linfty_norm() < 1e-9 * straight.linfty_norm());
}

TEMPLATE_TEST_CASE_SIG(
    "Patch test: a linear displacement gives one stress everywhere and no "
    "force inside, elastic and plastic",
    "[fem]", ((int dim), dim), 2, 3)
{
  Case c             = small_coupon<dim>();
  c.weld             = {}; // one material
  c.mesh.layers      = 2;  // so that there are nodes inside in 3D too
  c.coupon.thickness = 7;
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  const auto             inside = interior(c, model);
  for (const double size : {1e-4, 0.05, 0.3})
  {
    Equilibrium<dim> equilibrium(model, zone_materials(c));
    const Matrix3 A = {{{size, 0.5 * size, 0}, {-0.2 * size, -0.4 * size, 0}, {0, 0, 0}}};
    Matrix3       spatial = A;
    if (dim == 3)
      spatial[0][2] = spatial[2][1] = 0.3 * size;
    const Vector  f      = forces(equilibrium, linear_field(model, spatial));
    const Matrix3 first  = equilibrium.kirchhoff(0);
    double        stress = 0, spread = 0, inner = 0;
    for (std::size_t cell = 0; cell < model.cells().size(); ++cell)
      for (std::size_t q = 0; q < model.n_points_per_cell(); ++q)
      {
        const Matrix3 &tau = equilibrium.kirchhoff(equilibrium.point(cell, q));
        for (std::size_t i = 0; i < 3; ++i)
          for (std::size_t j = 0; j < 3; ++j)
          {
            stress = std::max(stress, std::abs(tau[i][j]));
            spread = std::max(spread, std::abs(tau[i][j] - first[i][j]));
          }
      }
    for (unsigned i = 0; i < f.size(); ++i)
      if (inside[i])
        inner = std::max(inner, std::abs(f[i]));
    CHECK(stress > 10);
    CHECK(spread < 1e-9 * stress);
    CHECK(inner < 1e-10 * f.linfty_norm());
    CHECK((equilibrium.energy().plastic_step > 0) == (size > 0.01));
  }
}

TEMPLATE_TEST_CASE_SIG("Patch test: with the surface moved linearly, disturbed inner nodes "
                       "find back to the linear field",
                       "[fem]", ((int dim), dim), 2, 3)
{
  Case c        = small_coupon<dim>();
  c.weld        = {};
  c.mesh.layers = 2;
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<dim>       equilibrium(model, zone_materials(c));
  const auto             inside = interior(c, model);
  const Vector           exact =
      linear_field(model, Matrix3{{{0.04, 0.02, 0}, {-0.01, -0.03, 0}, {0, 0, 0}}});
  std::mt19937 random(9);
  Vector       u(exact), disturbed(exact);
  shake(disturbed, random, 0.02);
  std::vector<unsigned> free;
  for (unsigned i = 0; i < u.size(); ++i)
    if (inside[i])
    {
      free.push_back(i);
      u[i] = disturbed[i];
    }
  REQUIRE(free.size() >= 6);
  const auto n = static_cast<unsigned>(free.size());
  for (int iteration = 0; iteration < 12; ++iteration)
  {
    const Vector     f = forces(equilibrium, u);
    DenseSystem<dim> dense(model);
    equilibrium.add_tangent(dense);
    dealii::FullMatrix<double> K(n, n);
    Vector                     right(n), move(n);
    for (unsigned i = 0; i < n; ++i)
    {
      right[i] = -f[free[i]];
      for (unsigned j = 0; j < n; ++j)
        K(i, j) = dense.matrix()(free[i], free[j]);
    }
    K.gauss_jordan();
    K.vmult(move, right);
    for (unsigned i = 0; i < n; ++i)
      u[free[i]] += move[i];
  }
  u -= exact;
  CHECK(u.linfty_norm() < 1e-10);
}

TEST_CASE("A cell that is turned inside out is reported, not computed with", "[fem]")
{
  const Case           c = small_coupon<2>();
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<2>       equilibrium(model, zone_materials(c));
  Vector               u(model.n_dofs()), force(model.n_dofs());
  const auto          &dofs = model.cells()[0].dofs;
  u[dofs[0]] += 100; // the first corner far beyond the others
  CHECK_FALSE(equilibrium.add_forces(u, force));
  u          = 0;
  u[dofs[0]] = std::nan("");
  CHECK_FALSE(equilibrium.add_forces(u, force));
}
