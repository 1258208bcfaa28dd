// The springs between the lips of a flaw: forces are the derivative of their energy, the
// tangent that of the forces, rigid motion changes nothing, and both serial systems find
// the blocks a place. Overlaps are invented.

#include "meshes/setup/placed_coupon.h"
#include "solver/fem/lip_contact.h"
#include "tests/solver/fem/dense_system.h"
#include "tests/solver/fem/small_coupon.h"

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

namespace
{
/// Flaws in the middle of a coupon, of which the right half is modelled or all.
Case flawed_in_the_middle(ModelChoice model)
{
  Case c               = small_coupon<2>();
  c.mesh.model         = model;
  c.flaws.each.front() = {FlawLine::centre, BendKind::root, 0, 3, 0};
  c.flaws.each[1]      = {FlawLine::centre, BendKind::root, 5, 7, 0.1};
  return c;
}
} // namespace

TEST_CASE("Half a model feels half of what the whole one does", "[fem][flaw]")
{
  const CouponModel<2> half(placed_coupon(flawed_in_the_middle(ModelChoice::automatic)),
                            MPI_COMM_WORLD);
  const CouponModel<2> whole(placed_coupon(flawed_in_the_middle(ModelChoice::full)),
                             MPI_COMM_WORLD);
  REQUIRE(half.extent() == Extent::half);
  REQUIRE(half.n_dofs() < 0.6 * whole.n_dofs());
  // A symmetric state that presses some of the lips together, by the places of the nodes.
  const auto shape = [](const CouponModel<2> &model)
  {
    Vector u(model.n_dofs());
    for (const FlawLips &lips : model.flaws())
      for (const LipPair &pair : lips.pairs)
        for (const NodeUnknowns &node : {pair.left, pair.right})
        {
          if (model.held()[node.x] || (!lips.mirrored && pair.left.x == pair.right.x))
            continue; // the plane of symmetry, or a tip on it
          const bool right = lips.mirrored || node.x == pair.right.x;
          u[node.x]        = (right ? -1 : 1) * 0.08 * std::sin(1 + pair.height);
          u[node.y]        = 0.03 * std::cos(pair.height);
        }
    return u;
  };
  LipContact   few(half, stiffness), all(whole, stiffness);
  Vector       of_half(half.n_dofs()), of_whole(whole.n_dofs());
  const Vector u = shape(half), v = shape(whole);
  few.add_forces(u, of_half);
  all.add_forces(v, of_whole);
  REQUIRE(all.energy() > 0);
  CHECK(few.energy() == Approx(all.energy() / 2));
  for (std::size_t k = 0; k < half.flaws().size(); ++k)
  {
    const FlawLips &here = half.flaws()[k], &there = whole.flaws()[k];
    CHECK(here.mirrored);
    CHECK_FALSE(there.mirrored);
    REQUIRE(here.pairs.size() == there.pairs.size());
    for (std::size_t i = 0; i < here.pairs.size(); ++i)
      if (there.pairs[i].left.x != there.pairs[i].right.x)
      {
        CHECK(of_half[here.pairs[i].right.x] ==
              Approx(of_whole[there.pairs[i].right.x]).margin(1e-9));
        CHECK(of_half[here.pairs[i].right.y] ==
              Approx(of_whole[there.pairs[i].right.y]).margin(1e-9));
      }
    const LipGap a = lip_gap(here, half.nodes(), u), b = lip_gap(there, whole.nodes(), v);
    CHECK(a.opening == Approx(b.opening));
    CHECK(a.overlap == Approx(b.overlap));
  }

  DenseSystem<2> system(half);
  few.add_tangent(system);
  std::mt19937 random(8);
  Vector       way(half.n_dofs());
  shake(way, random, 1);
  for (unsigned i = 0; i < way.size(); ++i)
    if (half.held()[i])
      way[i] = 0;
  constexpr double h = 1e-6;
  Vector           ahead(half.n_dofs()), behind(half.n_dofs()), expected(half.n_dofs());
  Vector           moved(u);
  moved.add(h, way);
  few.add_forces(moved, ahead);
  moved.add(-2 * h, way);
  few.add_forces(moved, behind);
  ahead -= behind;
  ahead /= 2 * h;
  system.matrix().vmult(expected, way);
  for (unsigned i = 0; i < way.size(); ++i)
    if (half.held()[i])
      expected[i] = ahead[i] = 0;
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
