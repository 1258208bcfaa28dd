// How a body is cut across its width where a side bend's weld leans.

#include "meshes/coupon/coupon_grading.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

using namespace throughbend;

TEST_CASE("Cells of a side bend neither lean far across the width nor are slivers",
          "[unit][mesh]")
{
  // Our own demand: a cell's shift over its length is at most 8, and 4.5 beside the turn of
  // a double V. With 25 and more a weld as strong as its plate told 37 % for 25 %.
  for (const MeshLevel level : {MeshLevel::quick, MeshLevel::standard, MeshLevel::fine})
    for (const double angle : {30., 60., 80.})
      for (const double transition : {0., 1., 2.})
      {
        Case c                  = reference_case();
        c.mesh.dimension        = 3;
        c.mesh.level            = level;
        c.weld                  = {0, 3, 0, 0.8, 0.9};
        c.weld.transition       = transition;
        c.weld.preparation      = Preparation::double_v;
        c.weld.bend             = BendKind::side;
        c.weld.root_opening     = 2;
        c.weld.root_face        = 1.5;
        c.weld.included_angle   = angle * std::acos(-1.) / 180;
        const CouponGrid  grid  = coupon_grid(c, Extent::half);
        const CouponShape shape = coupon_shape(c, Extent::half);
        const auto        place = [&](std::size_t i, std::size_t k) {
          return shape.leaned({grid.x[i], 0, grid.z[k]}).x;
        };
        INFO("angle " << angle << " deg, transition " << transition << " mm");
        CHECK(std::adjacent_find(grid.z.begin(), grid.z.end(), std::greater_equal<>()) ==
              grid.z.end()); // ascending
        CHECK(grid.z.back() == Approx(c.coupon.width / 2));
        CHECK(std::any_of(grid.z.begin(), grid.z.end(),
                          [](double z) { return z == Approx(0.75); }));
        double worst = 0, worst_at_turn = 0, shortest = 1e9;
        for (std::size_t k = 0; k + 1 < grid.z.size(); ++k)
          for (std::size_t i = 0; i + 1 < grid.x.size(); ++i)
          {
            const double here = place(i + 1, k) - place(i, k);
            const double lean = std::abs(place(i, k + 1) - place(i, k)) /
                                ((here + place(i + 1, k + 1) - place(i, k + 1)) / 2);
            worst = std::max(worst, lean);
            if (grid.z[k] < 0.76)
              worst_at_turn = std::max(worst_at_turn, lean);
            shortest = std::min(shortest, here);
          }
        CHECK(worst < 8);
        CHECK(worst_at_turn < 4.5);
        CHECK(shortest > 0.1);
      }
}
