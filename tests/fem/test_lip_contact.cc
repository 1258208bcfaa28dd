// The springs between the lips of a flaw: forces are the derivative of their energy, the
// tangent that of the forces, rigid motion changes nothing, and both serial systems find
// the blocks a place. Overlaps are invented.

#include "meshes/placed_coupon.h"
#include "solver/fem/lip_contact.h"
#include "tests/fem/dense_system.h"
#include "tests/fem/small_coupon.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
Case flawed()
{
  Case c               = small_coupon<2>();
  c.flaws.each.front() = {FlawLine::right, BendKind::root, 0, 4, 0};
  c.flaws.each[1]      = {FlawLine::left, BendKind::root, 2, 6, 0.1};
  return c;
}

/// Lips pressed together by some 0.2 mm, and everything shaken.
Vector pressed(const CouponModel<2> &model)
{
  Vector u(model.n_dofs());
  for (const FlawLips &lips : model.flaws())
    for (const LipPair &pair : lips.pairs)
      if (pair.left.x != pair.right.x)
      {
        u[pair.left.x] += 0.1;
        u[pair.right.x] -= 0.1;
      }
  std::mt19937 random(3);
  shake(u, random, 0.02);
  return u;
}

constexpr double stiffness = 700;
} // namespace

TEST_CASE("Lips that are apart feel nothing; pressed together they push back",
          "[fem][flaw]")
{
  const CouponModel<2> model(placed_coupon(flawed()), MPI_COMM_WORLD);
  LipContact           lips(model, stiffness);
  Vector               u = pressed(model), force(model.n_dofs());
  lips.add_forces(u, force);
  CHECK(lips.energy() > 0);
  // The left lip is held back to the left, so the derivative by its place is to the right.
  const LipPair &pair = model.flaws().front().pairs[1];
  CHECK(force[pair.left.x] > 0);
  CHECK(force[pair.right.x] < 0);
  u *= -1;
  force = 0;
  lips.add_forces(u, force);
  CHECK(lips.energy() == 0);
  CHECK(force.l2_norm() == 0);
}

TEST_CASE("Lip forces are the derivative of the energy, their tangent that of the forces",
          "[fem][flaw]")
{
  const CouponModel<2> model(placed_coupon(flawed()), MPI_COMM_WORLD);
  LipContact           lips(model, stiffness);
  const Vector         u = pressed(model);
  Vector               force(model.n_dofs());
  lips.add_forces(u, force);
  DenseSystem<2> system(model);
  lips.add_tangent(system);

  std::mt19937 random(8);
  Vector       way(model.n_dofs());
  shake(way, random, 1);
  constexpr double h  = 1e-6;
  const auto       at = [&](double step, Vector &there)
  {
    Vector moved(u);
    moved.add(step, way);
    there = 0;
    lips.add_forces(moved, there);
    return lips.energy();
  };
  Vector       ahead(model.n_dofs()), behind(model.n_dofs()), expected(model.n_dofs());
  const double more = at(h, ahead), less = at(-h, behind);
  CHECK((more - less) / (2 * h) == Approx(force * way).epsilon(1e-6));
  ahead -= behind;
  ahead /= 2 * h;
  system.matrix().vmult(expected, way);
  expected -= ahead;
  CHECK(expected.l2_norm() < 1e-6 * ahead.l2_norm());
}

TEST_CASE("A pressed flaw that is turned and carried off feels the same, in balance",
          "[fem][flaw]")
{
  const CouponModel<2> model(placed_coupon(flawed()), MPI_COMM_WORLD);
  LipContact           lips(model, stiffness);
  const Vector         u = pressed(model);
  Vector               force(model.n_dofs());
  lips.add_forces(u, force);
  const double energy = lips.energy();

  const double cosine = std::cos(0.8), sine = std::sin(0.8);
  Vector       turned(u);
  double       sum_x = 0, sum_y = 0, moment = 0, size = 0;
  for (const std::vector<unsigned> &coupling : model.couplings())
    for (std::size_t i = 0; i < coupling.size(); i += 2)
    {
      const unsigned x = coupling[i], y = coupling[i + 1];
      const double   X = model.nodes()[x][0], Y = model.nodes()[y][1];
      const double   px = X + u[x], py = Y + u[y];
      turned[x] = cosine * px - sine * py + 3 - X;
      turned[y] = sine * px + cosine * py - 2 - Y;
    }
  std::vector<bool> counted(model.n_dofs(), false);
  for (const std::vector<unsigned> &coupling : model.couplings())
    for (std::size_t i = 0; i < coupling.size(); i += 2)
      if (!counted[coupling[i]])
      {
        const unsigned x = coupling[i], y = coupling[i + 1];
        counted[x] = true;
        sum_x += force[x];
        sum_y += force[y];
        moment += (model.nodes()[x][0] + u[x]) * force[y] -
                  (model.nodes()[y][1] + u[y]) * force[x];
        size += std::abs(force[x]) + std::abs(force[y]);
      }
  CHECK(std::abs(sum_x) < 1e-10 * size);
  CHECK(std::abs(sum_y) < 1e-10 * size);
  CHECK(std::abs(moment) < 1e-9 * size);
  force = 0;
  lips.add_forces(turned, force);
  CHECK(lips.energy() == Approx(energy).epsilon(1e-9));
}

TEST_CASE("Blocks across a flaw have their place in the solver's matrix", "[fem][flaw]")
{
  const CouponModel<2> model(placed_coupon(flawed()), MPI_COMM_WORLD);
  LipContact           lips(model, stiffness);
  Vector               force(model.n_dofs()), ones(model.n_dofs());
  lips.add_forces(pressed(model), force);
  ones = 1;
  DenseSystem<2> dense(model);
  const auto     solver = make_linear_system(model);
  solver->clear();
  for (LinearSystem *system : {static_cast<LinearSystem *>(&dense), solver.get()})
  {
    lips.add_tangent(*system);
    system->add_diagonal(100, ones);
  }
  Vector ours, known;
  REQUIRE(dense.solve(force, known));
  REQUIRE(solver->solve(force, ours));
  ours -= known;
  CHECK(ours.l2_norm() < 1e-8 * known.l2_norm());
}
