// Flaws on the straight grid: on which line, between which rows, and the shape of an open
// gap. Lines and gaps are by hand.

#include "meshes/coupon/coupon_grading.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace throughbend;

namespace
{
Case v_welded()
{
  Case c                     = reference_case();
  c.weld.preparation         = Preparation::single_v;
  c.weld.root_opening        = 2;
  c.weld.root_face           = 1.5;
  c.weld.included_angle      = 1.0472;
  c.weld.bend                = BendKind::root;
  c.weld.transition          = 1;
  c.flaws.each.front().depth = 3;
  return c;
}

bool has(const std::vector<double> &list, double value)
{
  return std::any_of(list.begin(), list.end(),
                     [&](double each) { return std::abs(each - value) < 1e-9; });
}
} // namespace

TEST_CASE("A flaw off the middle makes the model a whole one", "[unit][flaw]")
{
  Case c               = v_welded();
  c.flaws.each.front() = {FlawLine::centre, BendKind::root, 0, 3, 0.2};
  CHECK(model_extent(c) == Extent::half);
  c.flaws.each[1] = {FlawLine::centre, BendKind::face, 0, 2, 0};
  CHECK(model_extent(c) == Extent::half);
  c.flaws.each[2] = {FlawLine::right, BendKind::root, 5, 7, 0};
  CHECK(model_extent(c) == Extent::full);
  c.flaws.each[2] = {};
  c.weld.offset   = 0.5; // the weld's middle is not the coupon's
  CHECK(model_extent(c) == Extent::full);
}

TEST_CASE("The edges of a flaw are rows of the grid", "[unit][flaw]")
{
  Case c = v_welded();
  for (const FlawLine line : {FlawLine::centre, FlawLine::left, FlawLine::right})
    for (const auto &[from, depth] : {std::pair{0., 3.}, std::pair{1.7, 6.3}})
    {
      c.flaws.each.front()    = {line, BendKind::root, from, depth, 0};
      const CouponShape shape = coupon_shape(c, Extent::full);
      const CouponGrid  grid  = coupon_grid(c, Extent::full);
      REQUIRE(shape.seams().size() == 1);
      const Seam &seam = shape.seams().front();
      CHECK(has(grid.y, from));
      CHECK(has(grid.y, depth));
      CHECK(has(grid.x, seam.grid));
      // At least three cells along it, or its middle could not open.
      CHECK(std::count_if(grid.y.begin(), grid.y.end(),
                          [&](double y) { return y > from && y < depth; }) >= 2);
      // 1 mm off the centre at the root, and along the bevel above the root face.
      const double side  = line == FlawLine::centre ? 0 : line == FlawLine::left ? -1 : 1;
      const auto  &where = shape.lines()[seam.line];
      CHECK(shape.line(where, 0) == Approx(side).margin(1e-9));
      CHECK(shape.line(where, 6.5) ==
            Approx(side * (1 + 5 * std::tan(1.0472 / 2))).margin(1e-9));
    }
}

TEST_CASE("An open flaw has parallel lips and a round tip", "[unit][flaw]")
{
  Seam seam;
  seam.span  = {0, 4};
  seam.plate = 10;
  seam.width = 1;
  CHECK(seam.opens_below());
  CHECK_FALSE(seam.opens_above());
  CHECK(seam.half_gap(0) == 0.5);
  CHECK(seam.half_gap(3.5) == 0.5);
  // A quarter of the width below the tip, on a circle of radius 0.5: sqrt(0.5^2 - 0.25^2).
  CHECK(seam.half_gap(3.75) == Approx(std::sqrt(0.1875)));
  CHECK(seam.half_gap(4) == 0);
  CHECK(seam.half_gap(5) == 0);
  CHECK(seam.parts(0));
  CHECK(seam.parts(2));
  CHECK_FALSE(seam.parts(4));
}
