// The coupon's mesh with a weld in it: sound cells, zones as large as the preparation, and
// a patch that any mesh must pass. Demands on cells are our own; areas are by hand.

#include "meshes/cells/coupon_mesh.h"
#include "meshes/setup/placed_coupon.h"
#include "solver/fem/equilibrium.h"
#include "solver/fem/strength_mixes.h"
#include "solver/pass/coupon_probe.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"
#include "tests/solver/fem/tangent_quotient.h"
#include "tests/solver/fem/uniform_stretch.h"
#include "tests/support/reference_case.h"
#include "tests/support/rigid_turn.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
Case welded(Preparation preparation, BendKind bend)
{
  Case c                = reference_case();
  c.weld.preparation    = preparation;
  c.weld.bend           = bend;
  c.weld.width          = 12;
  c.weld.root_opening   = 2;
  c.weld.root_face      = 1.5;
  c.weld.included_angle = preparation == Preparation::single_bevel ? 0.7854 : 1.0472;
  c.weld.haz_width      = 3;
  c.weld.transition     = 1;
  c.weld.strength_ratio = 1.3;
  c.weld.haz_ratio      = 0.9;
  c.mesh.model          = ModelChoice::full;
  return c;
}

std::vector<Case> variants()
{
  std::vector<Case> cases;
  for (const Preparation preparation : {Preparation::square, Preparation::single_v,
                                        Preparation::double_v, Preparation::single_bevel})
    for (const BendKind bend : {BendKind::face, BendKind::root})
    {
      Case c = welded(preparation, bend);
      cases.push_back(c);
      c.weld.offset     = -4;
      c.weld.cap        = {2, bend == BendKind::face ? 15. : 14.};
      c.weld.root_bead  = {1, 6};
      c.weld.toe_radius = 1;
      c.coupon.taper    = 0.8;
      cases.push_back(c);
    }
  return cases;
}

/// Largest angle between two sides of a quadrilateral [deg].
double largest_angle(const dealii::DoFHandler<2>::active_cell_iterator &cell)
{
  const std::array<unsigned, 4> round = {0, 1, 3, 2};
  double                        worst = 0;
  for (unsigned i = 0; i < 4; ++i)
  {
    const auto a = cell->vertex(round[(i + 3) % 4]) - cell->vertex(round[i]);
    const auto b = cell->vertex(round[(i + 1) % 4]) - cell->vertex(round[i]);
    worst        = std::max(worst, std::acos(a * b / (a.norm() * b.norm())));
  }
  return worst * 180 / std::acos(-1.);
}
} // namespace

TEST_CASE("Cells of a welded coupon are sound: none inside out, none pointed",
          "[fem][weld]")
{
  for (const Case &c : variants())
  {
    const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
    double               worst = 0, smallest = 1e9;
    for (const CellData<2> &cell : model.cells())
    {
      worst = std::max(worst, largest_angle(cell.cell));
      for (const double weight : cell.weight)
        smallest = std::min(smallest, weight);
    }
    INFO("preparation " << static_cast<int>(c.weld.preparation) << ", taper "
                        << c.coupon.taper);
    CHECK(smallest > 0);
    // A V of 60 degrees leans by 30, a bevel of 45 by 45; a cap's toe adds its own slope.
    const double bevel = c.weld.preparation == Preparation::square         ? 0
                         : c.weld.preparation == Preparation::single_bevel ? 45
                                                                           : 30;
    CHECK(worst < 90 + bevel + (c.weld.cap.height > 0 ? 35 : 3));
  }
}

TEST_CASE("Zones are as large as the preparation says", "[fem][weld]")
{
  const double slope = std::tan(1.0472 / 2), depth = 10 - 1.5;
  for (const BendKind bend : {BendKind::face, BendKind::root})
    for (const auto &[preparation, metal] :
         {std::pair{Preparation::square, 120.},
          std::pair{Preparation::single_v, 20 + slope * depth * depth},
          std::pair{Preparation::double_v, 20 + slope * depth * depth / 2},
          std::pair{Preparation::single_bevel, 20 + std::tan(0.7854) * depth * depth / 2}})
    {
      const CouponModel<2>  model(placed_coupon(welded(preparation, bend)), MPI_COMM_WORLD);
      std::array<double, 3> area{};
      for (const CellData<2> &cell : model.cells())
        for (const double weight : cell.weight)
          area[static_cast<std::size_t>(cell.zone)] += weight;
      INFO("preparation " << static_cast<int>(preparation));
      CHECK(area[2] == Approx(metal).epsilon(1e-3));
      // Two bands of 3 mm; cut square to a leaning line they are a little larger at a face
      // and smaller at a corner: within 3 % of their length times 3 mm.
      const double bevel = preparation == Preparation::square ? 10
                           : preparation == Preparation::single_bevel
                               ? (10 + 1.5 + depth / std::cos(0.7854)) / 2
                               : 1.5 + depth / std::cos(1.0472 / 2);
      CHECK(area[1] == Approx(2 * 3 * bevel).epsilon(0.06));
      CHECK(area[0] + area[1] + area[2] == Approx(1600));
    }
}

TEST_CASE("A uniform stretch of a welded mesh is uniform in every cell", "[fem][weld]")
{
  for (const Case &c : variants())
  {
    const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
    CHECK(stress_apart_under_uniform_stretch(model, c.material) < 1e-6); // [MPa]
  }
}

TEST_CASE("Strength is the zone's own well inside it and half way at a fusion line",
          "[fem][weld]")
{
  for (const Preparation preparation : {Preparation::square, Preparation::single_v})
  {
    Case c                = welded(preparation, BendKind::face);
    c.weld.haz_base_ratio = 0.95;
    const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
    const auto           mixes     = strength_mixes(ZoneMixing(c), placed_coupon(c), model);
    const auto           materials = zone_materials(c);
    const CouponShape    shape(c, model.extent());
    REQUIRE(mixes.size() == model.cells().size() * model.n_points_per_cell());
    std::size_t point = 0;
    for (const CellData<2> &cell : model.cells())
      for (const dealii::Point<2> &position : cell.position)
      {
        const StrengthMix &mix = mixes[point++];
        const auto         of  = [&](int k)
        { return materials[static_cast<std::size_t>(k)].flow.initial_stress() / 250; };
        const double ours = of(mix.first) + mix.share * (of(mix.second) - of(mix.first));
        const double d    = shape.from_fusion(spot(position, model.level()));
        // By hand: 1.3 to 0.9 in a smooth step over 1 mm, straight on to 0.95 at the end of
        // the band less half a millimetre, and a smooth step over 1 mm to 1.
        const auto   step    = [](double way) { return way * way * (3 - 2 * way); };
        const double by_hand = d < -0.5  ? 1.3
                               : d < 0.5 ? 1.3 - 0.4 * step(d + 0.5)
                               : d < 2.5 ? 0.9 + 0.05 * (d - 0.5) / 2
                               : d < 3.5 ? 0.95 + 0.05 * step(d - 2.5)
                                         : 1.;
        CHECK(ours == Approx(by_hand).margin(1e-9));
      }
  }
}

TEST_CASE("A rigid turn of a coupon with caps strains neither face", "[fem][weld]")
{
  Case c            = welded(Preparation::single_v, BendKind::root);
  c.weld.cap        = {2, 14};
  c.weld.root_bead  = {1, 6};
  c.weld.toe_radius = 1;
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  const CouponProbe<2> probe(model, placed_coupon(c));
  const Vector         u = rigid_turn(model, 0.3);
  for (const Face face : {Face::convex, Face::concave})
  {
    const auto strains = probe.face_strains(u, face);
    REQUIRE(strains.size() > 50);
    for (const FaceStrain &strain : strains)
      CHECK(strain.strain == Approx(0).margin(1e-10));
  }
}

TEST_CASE("The tangent of a welded coupon is the derivative of its forces", "[fem][weld]")
{
  // A few cells with mixed strength and bilinear dilatations, well into plastic flow.
  // With a backstress it is not symmetric, in no cell: all zones are mixed from metals that
  // have one.
  const bool shifts = GENERATE(false, true);
  Case       c      = small_coupon<2>();
  c.coupon.length   = 12;
  c.weld            = {4, 2, 0, 1.3, 0.8};
  c.weld.transition = 4;
  if (shifts)
    c.material.kinematic = {80, 20};
  const CouponModel<2> model(placed_coupon(c), MPI_COMM_WORLD);
  CHECK(model.n_dilatations() == 4);
  Equilibrium<2> equilibrium(model, zone_materials(c));
  equilibrium.mix(strength_mixes(ZoneMixing(c), placed_coupon(c), model));
  std::mt19937 random(5);
  Vector       u(model.n_dofs());
  for (unsigned i = 0; i < u.size(); ++i)
    u[i] = 0.03 * model.nodes()[i][0];
  shake(u, random, 0.03);
  forces(equilibrium, u);
  equilibrium.history().accept();
  shake(u, random, 0.03);
  const auto [error, skew] = tangent_errors(model, equilibrium, u);
  CHECK(error < 1e-7);
  CHECK((skew > 1e-6) == shifts);
  CHECK((skew < 1e-12) != shifts);
}
