// The mesh along a flaw: doubled nodes, free faces, the same metal as without it, and
// readings that cope with it. Counts and lengths are by hand.

#include "meshes/cells/coupon_mesh.h"
#include "meshes/setup/placed_coupon.h"
#include "solver/fem/equilibrium.h"
#include "solver/pass/coupon_probe.h"
#include "tests/solver/fem/uniform_stretch.h"
#include "tests/support/reference_case.h"
#include "tests/support/rigid_turn.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <set>
#include <utility>

using namespace throughbend;

namespace
{
Case flawed(const Flaw &flaw)
{
  Case c                = reference_case();
  c.weld.preparation    = Preparation::single_v;
  c.weld.bend           = BendKind::root;
  c.weld.root_opening   = 2;
  c.weld.root_face      = 1.5;
  c.weld.included_angle = 1.0472;
  c.weld.haz_width      = 3;
  c.weld.transition     = 1;
  c.flaws.each.front()  = flaw;
  c.mesh.model          = ModelChoice::full; // also where a flaw is taken out again
  return c;
}

/// A root flaw, a notch, one along a side wall, one buried in it, one on either line.
std::vector<Case> variants()
{
  const BendKind    root  = BendKind::root;
  std::vector<Case> cases = {flawed({FlawLine::centre, root, 0, 2, 0}),
                             flawed({FlawLine::centre, root, 0, 2, 0.8}),
                             flawed({FlawLine::right, root, 0, 5, 0}),
                             flawed({FlawLine::left, root, 2, 6, 0.2})};
  Case              two   = cases[0];
  two.flaws.each[1]       = {FlawLine::right, root, 3, 6, 0};
  two.flaws.each[2]       = {FlawLine::left, BendKind::face, 0, 4, 0.5};
  two.weld.cap            = {2, 16};
  two.weld.toe_radius     = 1;
  cases.push_back(two);
  return cases;
}

template <typename Look>
void each_boundary_face(const CouponModel<2> &model, Look look)
{
  for (const auto &cell : model.dof_handler().active_cell_iterators())
    for (const auto &face : cell->face_iterators())
      if (face->at_boundary())
        look(cell, face);
}

} // namespace

TEST_CASE("Nodes are doubled along a flaw, short of its tips, and nowhere else",
          "[fem][flaw]")
{
  for (const Case &c : variants())
  {
    const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
    const CouponGrid     grid  = coupon_grid(c, Extent::full);
    const CouponShape    shape = coupon_shape(c, Extent::full);
    REQUIRE(model.flaws().size() == shape.seams().size());
    // Two unknowns per node of the quadratic grid, and two more per doubled one: between
    // n + 1 corners of n cells edges lie 2 n + 1 nodes, all but the tips doubled.
    std::size_t nodes = (2 * grid.x.size() - 1) * (2 * grid.y.size() - 1);
    for (const Seam &seam : shape.seams())
    {
      std::size_t cells = 0;
      for (std::size_t i = 0; i + 1 < grid.y.size(); ++i)
        if (grid.y[i] > seam.span.low - 1e-6 && grid.y[i + 1] < seam.span.high + 1e-6)
          ++cells;
      nodes += 2 * cells + 1 - (seam.opens_below() || seam.opens_above() ? 1 : 2);
    }
    CHECK(model.n_dofs() == 2 * nodes);
    for (const FlawLips &lips : model.flaws())
      for (std::size_t i = 0; i < lips.pairs.size(); ++i)
      {
        const Seam &seam = shape.seams()[lips.flaw];
        const bool  tip  = (i == 0 && !seam.opens_below()) ||
                         (i + 1 == lips.pairs.size() && !seam.opens_above());
        CHECK((lips.pairs[i].left.x == lips.pairs[i].right.x) == tip);
        CHECK((lips.pairs[i].left.y == lips.pairs[i].right.y) == tip);
      }
  }
}

TEST_CASE("A flaw's lips are free faces of its own names, and tools do not touch them",
          "[fem][flaw]")
{
  for (const Case &c : variants())
  {
    const CouponModel<2>  model(placed_coupon(c), MPI_COMM_WORLD);
    std::map<int, double> length;
    std::map<int, int>    count;
    each_boundary_face(model,
                       [&](const auto &, const auto &face)
                       {
                         length[static_cast<int>(face->boundary_id())] += face->measure();
                         ++count[static_cast<int>(face->boundary_id())];
                       });
    const auto of = [&](CouponFace face) { return length[static_cast<int>(face)]; };
    CHECK(of(CouponFace::left_end) == Approx(10));
    CHECK(of(CouponFace::right_end) == Approx(10));
    CHECK(count[6] == count[7]);
    CHECK(of(CouponFace::left_lip) == Approx(of(CouponFace::right_lip)).epsilon(0.05));
    // Along the bevel a height of h is h / cos 30 deg long; caps stretch a little.
    if (c.flaws.each[1].depth == 0)
    {
      const Flaw  &flaw   = c.flaws.each.front();
      const double cosine = std::cos(1.0472 / 2);
      const double along  = flaw.line == FlawLine::centre ? flaw.depth
                            : flaw.from > 1.5 ? (flaw.depth - flaw.from) / cosine
                                              : 1.5 + (flaw.depth - 1.5) / cosine;
      // A wide gap is closed at its tips, at most by a square end.
      const double ends = flaw.width / 2 * (flaw.from > 0 ? 2 : 1);
      CHECK(of(CouponFace::left_lip) > along * (1 - 1e-6));
      CHECK(of(CouponFace::left_lip) < along * (1 + 1e-6) + ends);
    }
    for (const FaceData<2> &face : model.faces())
      CHECK((face.name == CouponFace::left_end || face.name == CouponFace::right_end ||
             face.name == CouponFace::convex || face.name == CouponFace::concave));
  }
}

TEST_CASE("A flaw takes no metal away but its gap", "[fem][flaw]")
{
  for (const Case &c : variants())
  {
    double area = 0, least = 1e9;
    for (const Case &each : {c, [&]
                             {
                               Case sound  = c;
                               sound.flaws = {};
                               return sound;
                             }()})
    {
      const CouponModel<2> model(placed_coupon(each), MPI_COMM_WORLD);
      double               own = 0;
      for (const CellData<2> &cell : model.cells())
        for (const double weight : cell.weight)
        {
          own += weight;
          least = std::min(least, weight);
        }
      area = own - area; // of the sound one less that of the flawed one
    }
    double gap = 0, through_cap = 0;
    for (const Flaw &flaw : c.flaws.each)
    {
      gap += flaw.width * (flaw.depth - flaw.from);
      if (flaw.surface == BendKind::face)
        through_cap += flaw.width * c.weld.cap.height;
    }
    CHECK(least > 0);
    // A tip is drawn by straight sides over the height of a cell: at the least half of the
    // width there. What comes out at a capped face is open through the cap as well. A cap's
    // arc is cut a little differently.
    const double cap = c.weld.cap.height > 0 ? 0.05 : 1e-6;
    CHECK(area < gap + through_cap + cap);
    CHECK(area > 0.7 * gap - cap);
  }
}

TEST_CASE("A cut from a face leaves one piece without a hole, a buried one a hole",
          "[fem][flaw]")
{
  // Euler's number, corners - edges + cells: 1 for a disc, 0 for a ring.
  const auto euler = [](const Case &c)
  {
    const CouponModel<2>                    model(placed_coupon(c), MPI_COMM_WORLD);
    std::set<unsigned>                      corners;
    std::set<std::pair<unsigned, unsigned>> edges;
    int                                     cells = 0;
    for (const auto &cell : model.dof_handler().active_cell_iterators())
    {
      ++cells;
      for (const unsigned v : cell->vertex_indices())
        corners.insert(cell->vertex_index(v));
      for (const auto &face : cell->face_iterators())
        edges.insert(std::minmax(face->vertex_index(0), face->vertex_index(1)));
    }
    return static_cast<int>(corners.size()) - static_cast<int>(edges.size()) + cells;
  };
  CHECK(euler(flawed({})) == 1);
  CHECK(euler(flawed({FlawLine::centre, BendKind::root, 0, 2, 0})) == 1);
  CHECK(euler(flawed({FlawLine::left, BendKind::root, 2, 6, 0})) == 0);
}

TEST_CASE("Lips pulled apart show their opening, pushed together their overlap, turned "
          "neither",
          "[fem][flaw]")
{
  const Case           c = flawed({FlawLine::right, BendKind::root, 0, 5, 0});
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  const FlawLips      &lips = model.flaws().front();
  Vector               u    = rigid_turn(model, 0.7);
  LipGap               gap  = lip_gap(lips, model.nodes(), u);
  CHECK(gap.opening == Approx(0).margin(1e-12));
  CHECK(gap.overlap == Approx(0).margin(1e-12));

  // The mouth's edges go 0.03 mm apart along x and 0.04 along y: 0.05 mm in all.
  u[lips.pairs.front().right.x] += 0.03;
  u[lips.pairs.front().right.y] += 0.04;
  gap = lip_gap(lips, model.nodes(), u);
  CHECK(gap.opening == Approx(0.05));

  // A pair inside runs 0.02 mm through the other lip, square to it.
  u                     = 0;
  const LipPair &inside = lips.pairs[lips.pairs.size() / 2];
  const double   lean   = inside.height > 1.5 ? 1.0472 / 2 : 0;
  u[inside.right.x] -= 0.02 * std::cos(lean);
  u[inside.right.y] += 0.02 * std::sin(lean);
  gap = lip_gap(lips, model.nodes(), u);
  CHECK(gap.overlap == Approx(0.02).epsilon(0.02));
}

TEST_CASE("Faces are read cell by cell past the mouth of a flaw", "[fem][flaw]")
{
  const Case           c = flawed({FlawLine::centre, BendKind::root, 0, 7, 0});
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  const CouponProbe<2> probe(model, placed_coupon(c));
  const CouponGrid     grid = coupon_grid(c, Extent::full);
  Vector               u    = rigid_turn(model, 0.3);
  for (const Face face : {Face::convex, Face::concave})
  {
    const auto strains = probe.face_strains(u, face);
    CHECK(strains.size() == 2 * (grid.x.size() - 1));
    double before = -1e9;
    for (const FaceStrain &strain : strains)
    {
      CHECK(strain.strain == Approx(0).margin(1e-10));
      CHECK(strain.position > before);
      before = strain.position;
    }
  }
  // The flaw crosses the mid-line at the centre: lips that part evenly move no middle.
  u = 0;
  for (const LipPair &pair : model.flaws().front().pairs)
    if (pair.left.x != pair.right.x)
    {
      u[pair.left.x] -= 0.1;
      u[pair.right.x] += 0.1;
    }
  CHECK(probe.walk(u) == Approx(0).margin(1e-9));
}

TEST_CASE("A uniform stretch of a flawed mesh is uniform in every cell", "[fem][flaw]")
{
  for (const Case &c : variants())
  {
    const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
    CHECK(stress_apart_under_uniform_stretch(model, c.material) < 1e-6); // [MPa]
  }
}
