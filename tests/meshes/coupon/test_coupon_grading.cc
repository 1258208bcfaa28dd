// Where the cells are cut. Bounds are our own demands on a mesh (sizes that change
// smoothly, lines on zone boundaries), not values read from the code.

#include "meshes/coupon/coupon_grading.h"
#include "meshes/coupon/leg_reach.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace throughbend;

namespace
{
void require_ascending(const std::vector<double> &lines)
{
  for (std::size_t i = 0; i + 1 < lines.size(); ++i)
    CHECK(lines[i + 1] > lines[i] + 1e-6);
}

bool has_line(const std::vector<double> &lines, double x)
{
  return std::any_of(lines.begin(), lines.end(),
                     [x](double line) { return std::abs(line - x) < 1e-9; });
}

/// Largest ratio of neighbouring cell sizes.
double worst_neighbours(const std::vector<double> &lines)
{
  double worst = 1;
  for (std::size_t i = 0; i + 2 < lines.size(); ++i)
  {
    const double a = lines[i + 1] - lines[i], b = lines[i + 2] - lines[i + 1];
    worst = std::max({worst, a / b, b / a});
  }
  return worst;
}

/// Size of the cell at x.
double size_at(const std::vector<double> &lines, double x)
{
  for (std::size_t i = 0; i + 1 < lines.size(); ++i)
    if (lines[i] <= x && x < lines[i + 1])
      return lines[i + 1] - lines[i];
  return 0;
}

Case welded()
{
  Case c         = reference_case();
  c.weld         = {12, 4, 0, 1.2, 0.9};
  c.coupon.width = 38;
  return c;
}
} // namespace

TEST_CASE("A symmetric case takes the half model unless the full one is asked for",
          "[unit][mesh]")
{
  Case c = reference_case();
  CHECK(model_extent(c) == Extent::half);
  CHECK(model_extent(welded()) == Extent::half);
  c.mesh.model = ModelChoice::full;
  CHECK(model_extent(c) == Extent::full);
  c               = reference_case();
  c.coupon.offset = 1.5;
  CHECK(model_extent(c) == Extent::full);
  c             = welded();
  c.weld.offset = -2;
  CHECK(model_extent(c) == Extent::full);
  // An offset of a weld that is not there breaks no symmetry.
  c             = reference_case();
  c.weld.offset = 3;
  CHECK(model_extent(c) == Extent::half);
}

TEST_CASE("The grid covers the half or the whole coupon where it lies", "[unit][mesh]")
{
  Case       c    = reference_case();
  CouponGrid half = coupon_grid(c, Extent::half);
  CHECK(half.x.front() == 0);
  CHECK(half.x.back() == Approx(80));
  CHECK(half.y.front() == 0);
  CHECK(half.y.back() == Approx(10));
  CHECK(half.z.empty());
  c.coupon.offset       = 3;
  const CouponGrid full = coupon_grid(c, Extent::full);
  CHECK(full.x.front() == Approx(-77));
  CHECK(full.x.back() == Approx(83));
  CHECK(has_line(full.x, 0));
}

TEST_CASE("A symmetric case's full grid is the half grid and its mirror", "[unit][mesh]")
{
  for (const Case &c : {reference_case(), welded()})
  {
    const CouponGrid half = coupon_grid(c, Extent::half),
                     full = coupon_grid(c, Extent::full);
    REQUIRE(full.x.size() == 2 * half.x.size() - 1);
    for (const double x : half.x)
    {
      CHECK(has_line(full.x, x));
      CHECK(has_line(full.x, -x));
    }
  }
}

TEST_CASE("Grid lines ascend for thin, thick, short, long, welded and framed coupons",
          "[unit][mesh]")
{
  for (const MeshLevel level : {MeshLevel::quick, MeshLevel::standard, MeshLevel::fine})
    for (const double thickness : {3.0, 10.0, 25.0})
      for (const double length : {90.0, 160.0, 300.0})
        for (const int variant : {0, 1, 2, 3})
        {
          Case c             = variant == 1 ? welded() : reference_case();
          c.mesh.level       = level;
          c.coupon.thickness = thickness;
          c.coupon.length    = length;
          if (variant == 2)
            c.fixture.frame = {80, 1.5, 1.5, 10, 1};
          if (variant == 3)
            c.coupon.offset = 4;
          const CouponGrid grid = coupon_grid(c, model_extent(c));
          require_ascending(grid.x);
          require_ascending(grid.y);
        }
}

TEST_CASE("Every zone boundary is a grid line, and every cell lies in one zone",
          "[unit][mesh]")
{
  for (const double weld_offset : {0.0, 2.0, -5.5})
    for (const double coupon_offset : {0.0, 1.5})
    {
      Case c                 = welded();
      c.weld.offset          = weld_offset;
      c.coupon.offset        = coupon_offset;
      const CouponGrid  grid = coupon_grid(c, model_extent(c));
      const CouponShape shape(c, model_extent(c));
      const double      centre = weld_offset + coupon_offset;
      for (const double x : {centre - 10, centre - 6, centre + 6, centre + 10})
        if (x > grid.x.front())
          CHECK(has_line(grid.x, x));
      for (std::size_t i = 0; i + 1 < grid.x.size(); ++i)
      {
        const CouponPoint a = {grid.x[i] + 1e-6, 4, 0}, b = {grid.x[i + 1] - 1e-6, 4, 0};
        CHECK(shape.zone(a) == shape.zone(b));
      }
    }
}

TEST_CASE("A weld along the coupon asks for its zones' lines and for no narrow cells",
          "[unit][mesh]")
{
  // A bend stretches all zones of it alike: no strain has to be followed from zone to zone.
  Case c           = reference_case();
  c.mesh.dimension = 3;
  const Case plain = c;
  c.weld           = welded().weld;
  c.weld.run       = WeldRun::longitudinal;
  for (const double transition : {0.0, 0.5, 4.0})
  {
    c.weld.transition       = transition;
    const CouponGrid  grid  = coupon_grid(c, model_extent(c));
    const CouponShape shape = coupon_shape(c, model_extent(c));
    CHECK_FALSE(shape.has_narrow_cells());
    CHECK(has_line(grid.z, 6));
    CHECK(has_line(grid.z, 10));
    CHECK(grid.z.size() <= 6);
    CHECK(grid.y.size() == coupon_grid(plain, Extent::half).y.size());
  }
}

TEST_CASE("Sizes of neighbouring cells stay alike where nothing forces a line",
          "[unit][mesh]")
{
  for (const MeshLevel level : {MeshLevel::quick, MeshLevel::standard, MeshLevel::fine})
    for (const double thickness : {3.0, 10.0, 25.0})
    {
      Case c             = reference_case();
      c.mesh.level       = level;
      c.coupon.thickness = thickness;
      CHECK(worst_neighbours(coupon_grid(c, Extent::half).x) < 1.35);
      c.coupon.length = 180;
      c.fixture.frame = {80, 1.5, 1.5, 10, 1};
      CHECK(worst_neighbours(coupon_grid(c, Extent::half).x) < 1.35);
    }
}

TEST_CASE(
    "Cells across a change of strength are half as long as it, and the mesh grows out "
    "from there smoothly",
    "[unit][mesh]")
{
  Case c            = welded();
  c.weld.transition = 1;
  for (const double width : {4.0, 7.0, 12.0, 19.0})
  {
    c.weld.width          = width;
    const CouponGrid grid = coupon_grid(c, Extent::half);
    require_ascending(grid.x);
    for (const double line : {width / 2, width / 2 + 4})
      for (const double x : {line - 0.25, line + 0.25})
        CHECK(size_at(grid.x, x) <= 0.3);
    CHECK(worst_neighbours(grid.x) < 2.5);
  }
}

TEST_CASE("Layers are cut where a fusion line turns and in the middle", "[unit][mesh]")
{
  Case c                = reference_case();
  c.weld.preparation    = Preparation::single_v;
  c.weld.root_opening   = 2;
  c.weld.included_angle = 1.0472;
  c.weld.root_face      = 1.5;
  const CouponGrid grid = coupon_grid(c, Extent::half);
  require_ascending(grid.y);
  CHECK(has_line(grid.y, 8.5)); // the face, wide, is the convex side at 0
  CHECK(has_line(grid.y, 5));
  CHECK(worst_neighbours(grid.y) < 2);
  // A corner too close to a surface for a layer of its own is cut off instead.
  c.weld.root_face = 0.1;
  CHECK(coupon_grid(c, Extent::half).y.size() ==
        coupon_grid(reference_case(), Extent::half).y.size());
}

TEST_CASE("A weld's lines do not make slivers", "[unit][mesh]")
{
  Case c = welded();
  for (const double width : {4.0, 7.0, 12.0, 19.0})
  {
    c.weld.width = width;
    CHECK(worst_neighbours(coupon_grid(c, Extent::half).x) < 2.5);
  }
}

TEST_CASE("Cells do not crowd towards a line where a V is narrow on the convex face",
          "[unit][mesh]")
{
  // In a root bend the convex face is the narrow one. Cells cut as the wide face wants them
  // were 0.02 mm long there, and strain leapt by half from one to the next.
  for (const MeshLevel level : {MeshLevel::quick, MeshLevel::standard, MeshLevel::fine})
    for (const double opening : {1.5, 2.0, 4.0})
      for (const double angle : {30., 60., 90.})
      {
        Case c                    = reference_case();
        c.mesh.level              = level;
        c.weld                    = {0, 3, 0, 0.8, 0.9};
        c.weld.transition         = 1;
        c.weld.preparation        = Preparation::single_v;
        c.weld.bend               = BendKind::root;
        c.weld.root_opening       = opening;
        c.weld.root_face          = 2;
        c.weld.included_angle     = angle * std::acos(-1.) / 180;
        const CouponGrid    grid  = coupon_grid(c, Extent::half);
        const CouponShape   shape = coupon_shape(c, Extent::half);
        std::vector<double> face;
        for (const double x : grid.x)
          face.push_back(shape.leaned({x, 0, 0}).x);
        require_ascending(face);
        INFO("opening " << opening << " mm, " << angle << " deg");
        CHECK(worst_neighbours(face) < 2.5);
        const double wished = level == MeshLevel::quick      ? 0.375
                              : level == MeshLevel::standard ? 0.25
                                                             : 0.125;
        for (std::size_t i = 0; i + 1 < face.size(); ++i)
          CHECK(face[i + 1] - face[i] > wished / 3);
      }
}

TEST_CASE("Layers are low enough that cells beside a bevel do not lean far", "[unit][mesh]")
{
  // Our own demand: near the convex face a cell's shift over its length is at most 6.
  for (const BendKind bend : {BendKind::root, BendKind::face})
    for (const double angle : {30., 45., 60.})
    {
      Case c                  = reference_case();
      c.weld                  = {0, 3, 0, 0.8, 0.9};
      c.weld.transition       = 1;
      c.weld.preparation      = Preparation::single_bevel;
      c.weld.bend             = bend;
      c.weld.root_opening     = 2;
      c.weld.root_face        = 1.5;
      c.weld.included_angle   = angle * std::acos(-1.) / 180;
      const CouponGrid  grid  = coupon_grid(c, Extent::full);
      const CouponShape shape = coupon_shape(c, Extent::full);
      const auto        place = [&](std::size_t i, std::size_t j) {
        return shape.leaned({grid.x[i], grid.y[j], 0}).x;
      };
      double worst = 0;
      for (std::size_t j = 0; j + 1 < grid.y.size(); ++j)
        for (std::size_t i = 0; i + 1 < grid.x.size(); ++i)
          if (grid.y[j + 1] < 0.45 * c.coupon.thickness)
            worst = std::max(worst, std::abs(place(i, j + 1) - place(i, j)) /
                                        (place(i + 1, j) - place(i, j)));
      INFO("angle " << angle << " deg");
      CHECK(worst < 6);
    }
}

TEST_CASE("Faces in the bend are at most a tenth of the nose radius on the standard mesh",
          "[unit][mesh]")
{
  // Feasibility study of this project: longer faces make the force ripple.
  const CouponGrid grid = coupon_grid(reference_case(), Extent::half);
  for (double x = 0; x < 35; x += 1)
    CHECK(size_at(grid.x, x) <= 2.0 * 1.05);
}

TEST_CASE("A finer level has smaller cells and more layers, the fine one half the size",
          "[unit][mesh]")
{
  std::vector<double>      sizes;
  std::vector<std::size_t> layers;
  for (const MeshLevel level : {MeshLevel::quick, MeshLevel::standard, MeshLevel::fine})
  {
    Case c                = reference_case();
    c.mesh.level          = level;
    const CouponGrid grid = coupon_grid(c, Extent::half);
    sizes.push_back(size_at(grid.x, 1));
    layers.push_back(grid.y.size() - 1);
  }
  CHECK(sizes[0] > sizes[1]);
  CHECK(sizes[2] == Approx(sizes[1] / 2).epsilon(0.1));
  CHECK(layers[0] < layers[1]);
  CHECK(layers[1] < layers[2]);
}

TEST_CASE("Layers and cell size that are asked for are given", "[unit][mesh]")
{
  Case c                = reference_case();
  c.mesh.layers         = 5;
  c.mesh.cell_size      = 1.0;
  const CouponGrid grid = coupon_grid(c, Extent::half);
  REQUIRE(grid.y.size() == 6);
  for (int i = 0; i <= 5; ++i)
    CHECK(grid.y[static_cast<std::size_t>(i)] == Approx(2.0 * i));
  for (double x = 0; x < 40; x += 1)
    CHECK(size_at(grid.x, x) == Approx(1.0).epsilon(0.06));
}

TEST_CASE("In 3D the half width is cut from the mid-plane to the edge", "[unit][mesh]")
{
  Case c                = reference_case();
  c.mesh.dimension      = 3;
  const CouponGrid grid = coupon_grid(c, Extent::half);
  REQUIRE(grid.z.size() >= 3);
  CHECK(grid.z.front() == 0);
  CHECK(grid.z.back() == Approx(19));
  require_ascending(grid.z);
}

TEST_CASE("A leg that will be ironed has cells a quarter as long as the shoulder's bite",
          "[unit][mesh]")
{
  // Room of 11.6 mm beside the plunger, shoulders of 20 mm: a leg that is 3.5 % too thick
  // is bitten over sqrt(2 * 20 * 0.035 t) (by hand; 4.1 mm at 12 mm).
  Case c = reference_case();
  CHECK_FALSE(leg_is_ironed(c));
  c.coupon.thickness = 11;
  CHECK_FALSE(leg_is_ironed(c));
  for (const double thickness : {11.4, 12., 12.8})
  {
    c.coupon.thickness = thickness;
    CHECK(leg_is_ironed(c));
    const CouponGrid grid = coupon_grid(c, Extent::half);
    const double     bite = std::sqrt(2 * 20 * 0.035 * thickness);
    // What lies round the nose is bent, not ironed.
    const double round_nose = (20 + thickness / 2) * std::acos(-1.) / 2;
    for (std::size_t i = 1; i < grid.x.size(); ++i)
      if (grid.x[i - 1] > round_nose)
        CHECK(grid.x[i] - grid.x[i - 1] < bite / 3.7);
    CHECK(size_at(grid.x, 5) > 1.8); // the bend keeps its cells
    CHECK(worst_neighbours(grid.x) < 1.5);
    require_ascending(grid.y);
    CHECK(grid.y.back() == Approx(thickness));
    CHECK(grid.y[1] < thickness / 4); // thinnest at the convex face
  }
  c.mesh.dimension = 3; // not yet
  CHECK_FALSE(leg_is_ironed(c));
  c                  = reference_case();
  c.coupon.thickness = 11;
  c.coupon.taper     = 1; // one end is 11.5 mm thick
  CHECK(leg_is_ironed(c));
}

TEST_CASE("Cells of a long leg grow where nothing bends it", "[unit][mesh]")
{
  // Half a metre of leg 2 mm thick: cells of half the thickness all along were 500 in a
  // row.
  Case c                  = reference_case();
  c.fixture.plunger.width = 8, c.fixture.plunger.nose_radius = 4;
  c.fixture.shoulders.opening = 13, c.fixture.shoulders.radius = 4;
  c.coupon.thickness    = 2;
  c.coupon.length       = 60;
  const CouponGrid less = coupon_grid(c, Extent::half);
  c.coupon.length       = 1000;
  const CouponGrid grid = coupon_grid(c, Extent::half);
  require_ascending(grid.x);
  CHECK(grid.x.back() == Approx(500));
  CHECK(grid.x.size() < less.x.size() + 140); // 125 of the shoulders' 4 mm
  CHECK(worst_neighbours(grid.x) < 1.35);
  CHECK(size_at(grid.x, 490) > 3.8);
  // What bends keeps its cells: up to (4 + 1) pi / 2 + 2 = 9.85 mm, by hand; farther out
  // sizes grow from cell to cell, and cuts lie elsewhere.
  for (double x = 0.5; x < 9.8; x += 0.5)
    CHECK(size_at(grid.x, x) == Approx(size_at(less.x, x)).epsilon(0.15));
}

TEST_CASE("The bend of a thin coupon is not passed over, however long its legs",
          "[unit][mesh]")
{
  Case c                  = reference_case();
  c.fixture.plunger.width = 1.2, c.fixture.plunger.nose_radius = 0.6;
  c.fixture.shoulders.opening = 2.2, c.fixture.shoulders.radius = 1;
  c.coupon.thickness    = 0.3;
  c.coupon.length       = 3000;
  const CouponGrid grid = coupon_grid(c, Extent::half);
  // A tenth of the nose radius (see above), as round a thick plunger.
  for (double x = 0.05; x < 1; x += 0.05)
    CHECK(size_at(grid.x, x) <= 0.07);
}

TEST_CASE("Where a frame is far in along a long leg only the leg's end has its fine cells",
          "[unit][mesh]")
{
  Case c                  = reference_case();
  c.coupon.length         = 1600;
  const std::size_t plain = coupon_grid(c, Extent::half).x.size();
  c.fixture.frame         = {200, 5, 5, 10, 0.5};
  const CouponGrid grid   = coupon_grid(c, Extent::half);
  CHECK(size_at(grid.x, 799) < 1.5); // t / 8 (by hand: 1.25 mm)
  CHECK(size_at(grid.x, 500) > 4);
  CHECK(grid.x.size() < plain + 200);
}

TEST_CASE(
    "A leg that is only tight is fine as far as its curl, one that is too thick to its "
    "end",
    "[unit][mesh]")
{
  Case c             = reference_case();
  c.coupon.length    = 500;
  c.coupon.thickness = 11.5; // room 11.6 mm
  REQUIRE(leg_is_ironed(c));
  CHECK(size_at(coupon_grid(c, Extent::half).x, 60) < 1.2);
  CHECK(size_at(coupon_grid(c, Extent::half).x, 240) > 5);
  c.coupon.thickness = 11.7;
  CHECK(size_at(coupon_grid(c, Extent::half).x, 240) < 1.2);
}

TEST_CASE("A corner of the nose sharper than a cell is long gets cells of its own",
          "[unit][mesh]")
{
  Case c                        = reference_case();
  c.fixture.plunger.nose_radius = 0.6; // corners from 19.4 to 20 mm
  const CouponGrid grid         = coupon_grid(c, Extent::half);
  require_ascending(grid.x);
  CHECK(size_at(grid.x, 19.7) < 0.6); // a face is no longer than the radius
  CHECK(size_at(grid.x, 5) > 1.2);
  CHECK(worst_neighbours(grid.x) < 1.35);
  c.fixture.plunger.nose_radius = 5;
  CHECK(size_at(coupon_grid(c, Extent::half).x, 17) > 1.2);
}

TEST_CASE("An ironed leg has thin layers at its convex face, and more of them",
          "[unit][mesh]")
{
  Case       c       = reference_case();
  const auto plain   = coupon_grid(c, Extent::half).y;
  c.coupon.thickness = 12.2;
  REQUIRE(leg_is_ironed(c));
  const auto ironed = coupon_grid(c, Extent::half).y;
  CHECK(ironed.size() > plain.size());
  const double skin = ironed[1], inner = ironed.back() - ironed[ironed.size() - 2];
  CHECK(inner / skin > 3);
  CHECK(worst_neighbours(ironed) < 1.8);
  c.mesh.level    = MeshLevel::fine;
  const auto fine = coupon_grid(c, Extent::half).y;
  CHECK(fine.size() - 1 == 2 * (ironed.size() - 1));
  CHECK(fine[1] == Approx(skin / 2).epsilon(0.2)); // refined in like proportion
}

TEST_CASE("Rounded edges begin on lines of a body's grid", "[unit][mesh]")
{
  Case c               = reference_case();
  c.coupon.edge_radius = 3;
  CHECK_FALSE(has_line(coupon_grid(c, Extent::half).y, 3)); // sharp in the plane
  c.mesh.dimension = 3;
  for (const MeshLevel level : {MeshLevel::quick, MeshLevel::standard, MeshLevel::fine})
    for (const double radius : {0.3, 1., 3., 4.4})
    {
      c.mesh.level          = level;
      c.coupon.edge_radius  = radius;
      const CouponGrid grid = coupon_grid(c, Extent::half);
      require_ascending(grid.y);
      require_ascending(grid.z);
      CHECK(has_line(grid.y, radius));
      CHECK(has_line(grid.y, 10 - radius));
      CHECK(has_line(grid.z, 19 - radius));
    }
}

TEST_CASE("A quick mesh stays small: its fine cells get longer where they would be many",
          "[unit][mesh]")
{
  const auto unknowns = [](const Case &c)
  {
    const CouponGrid grid = coupon_grid(c, model_extent(c));
    return 2 * (2 * grid.x.size() - 1) * (2 * grid.y.size() - 1);
  };
  Case c = reference_case();
  CHECK(coarsening(c) == 1);
  // Three flaws of a twentieth of the thickness, and a transition as short.
  c.weld                      = {8, 4, 0, 1.3, 0.8};
  c.weld.transition           = 0.3;
  c.flaws.each[0]             = {FlawLine::centre, BendKind::root, 0, 0.5, 0};
  c.flaws.each[1]             = {FlawLine::left, BendKind::root, 0, 0.5, 0};
  c.flaws.each[2]             = {FlawLine::right, BendKind::root, 0, 0.5, 0};
  const std::size_t as_it_was = unknowns(c);
  CHECK(coarsening(c) == 1); // the standard level keeps its accuracy
  c.mesh.level = MeshLevel::quick;
  CHECK(coarsening(c) > 1);
  CHECK(unknowns(c) <= 7000); // the bound that is stated for it
  CHECK(as_it_was > 12000);
  require_ascending(coupon_grid(c, model_extent(c)).x);
  require_ascending(coupon_grid(c, model_extent(c)).y);

  Case drawn                     = reference_case(); // over half a metre
  drawn.coupon.length            = 1200;
  drawn.coupon.thickness         = 12.2;
  drawn.fixture.shoulders.radius = 2;
  drawn.mesh.level               = MeshLevel::quick;
  REQUIRE(leg_is_ironed(drawn));
  CHECK(unknowns(drawn) <= 7000);
  const double coarse = ironed_cell(drawn);
  drawn.mesh.level    = MeshLevel::standard;
  CHECK(coarse > 2 * ironed_cell(drawn));
}

TEST_CASE("Cells of a straight leg are no longer than the arc that they slide past",
          "[unit][mesh]")
{
  Case c                            = reference_case();
  c.coupon.length                   = 1600;
  c.fixture.shoulders.bottom_radius = 30;
  CHECK(size_at(coupon_grid(c, Extent::half).x, 700) > 15); // radius 20 mm
  c.fixture.shoulders.bottom_radius = 12;
  CHECK(size_at(coupon_grid(c, Extent::half).x, 700) < 12.1);
  c.fixture.shoulders.bottom_radius = 1; // a corner: no shorter than the thickness
  CHECK(size_at(coupon_grid(c, Extent::half).x, 700) > 8);
}

TEST_CASE("A mesh set by hand is told to be coarser than its level where it is",
          "[unit][mesh]")
{
  // Standard: 4 layers, cells of a tenth of the nose's radius of 20 mm.
  Case c = reference_case();
  CHECK(coarsening_by_hand(c) == 1);
  c.mesh.layers = 6;
  CHECK(coarsening_by_hand(c) == 1);
  c.mesh.layers = 1;
  CHECK(coarsening_by_hand(c) == 4);
  c.mesh.layers    = 0;
  c.mesh.cell_size = 6;
  CHECK(coarsening_by_hand(c) == Approx(3));
  c.mesh.cell_size = 2.1; // 5 % longer
  CHECK(coarsening_by_hand(c) == 1);
  c.mesh.cell_size = 1;
  CHECK(coarsening_by_hand(c) == 1);
}
