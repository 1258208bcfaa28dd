// The coupon as it is: leaning lines, caps, taper. Against elementary geometry.

#include "meshes/coupon/coupon_shape.h"
#include "meshes/setup/fixture_profiles.h"
#include "tests/support/reference_case.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
Case with_v(Preparation preparation)
{
  Case c                = reference_case();
  c.weld.preparation    = preparation;
  c.weld.root_opening   = 2;
  c.weld.root_face      = 1.5;
  c.weld.included_angle = preparation == Preparation::single_bevel ? 0.7854 : 1.0472;
  c.weld.haz_width      = 3;
  c.weld.transition     = 1;
  return c;
}
} // namespace

TEST_CASE("A plain coupon's grid is left as it is", "[unit][mesh]")
{
  for (const Extent extent : {Extent::half, Extent::full})
  {
    const CouponShape shape(reference_case(), extent);
    CHECK(shape.straight());
    CHECK(shape.zone({1, 2, 0}) == 0);
  }
}

TEST_CASE("Lines never cross, and a line of the grid lies where its fusion line does",
          "[unit][mesh]")
{
  for (const Preparation preparation :
       {Preparation::single_v, Preparation::double_v, Preparation::single_bevel})
    for (const BendKind bend : {BendKind::face, BendKind::root})
      for (const double offset : {0., 2.5})
      {
        Case c        = with_v(preparation);
        c.weld.bend   = bend;
        c.weld.offset = offset;
        const CouponShape shape(c, model_extent(c));
        CHECK(!shape.straight());
        for (double height = 0; height <= 10; height += 0.5)
          for (std::size_t i = 0; i + 1 < shape.lines().size(); ++i)
          {
            const MeshLine &a = shape.lines()[i], &b = shape.lines()[i + 1];
            INFO("height " << height << ", line " << i);
            CHECK(shape.line(b, height) - shape.line(a, height) > 0.05);
            if (a.flank && a.distance == 0)
              CHECK(shape.from_fusion(shape.leaned({a.grid, height, 0})) ==
                    Approx(0).margin(1e-9));
          }
        // Far away everything stands upright.
        for (const double x : {-79., 79.})
          if (x > shape.lines().front().grid)
            CHECK(shape.leaned({x, 3, 0}).x == Approx(x));
      }
}

TEST_CASE("Which cases may be halved", "[unit][mesh]")
{
  Case c = with_v(Preparation::single_v);
  CHECK(model_extent(c) == Extent::half);
  c.weld.preparation = Preparation::single_bevel;
  CHECK(model_extent(c) == Extent::full);
  c              = reference_case();
  c.coupon.taper = 0.5;
  CHECK(model_extent(c) == Extent::full);
}

TEST_CASE("A cap is an arc that runs into the plate with its toe radius", "[unit][mesh]")
{
  Case c            = with_v(Preparation::single_v);
  c.weld.bend       = BendKind::root; // face, and with it the cap, under the plunger
  c.weld.cap        = {2, 14};
  c.weld.toe_radius = 1.5;
  const CouponShape shape(c, Extent::half);
  CHECK(shape.top(0) == Approx(2));
  CHECK(shape.bottom(0) == 0);
  // The crown's arc over 14 mm, 2 mm high, has the radius (49 + 4) / 4 = 13.25.
  CHECK(shape.top(3) == Approx(2 - 13.25 + std::sqrt(13.25 * 13.25 - 9)));
  CHECK(shape.top(20) == 0);
  // No step and no kink anywhere.
  double steepest = 0;
  for (double x = 0; x < 20; x += 0.01)
  {
    const double slope = (shape.top(x + 1e-5) - shape.top(x)) / 1e-5;
    const double next  = (shape.top(x + 0.01 + 1e-5) - shape.top(x + 0.01)) / 1e-5;
    CHECK(std::abs(next - slope) < 0.012); // toe: curvature 1 / 1.5 over 0.01 mm
    steepest = std::max(steepest, -slope);
  }
  // The toe angle of an arc is twice the angle whose tangent is 2 H / W; the fillet's end
  // cuts a little off.
  CHECK(steepest < std::tan(2 * std::atan(4. / 14)));
  CHECK(steepest > 0.8 * std::tan(2 * std::atan(4. / 14)));
  // Turned over, it hangs between the shoulders.
  c.weld.bend = BendKind::face;
  const CouponShape below(c, Extent::half);
  CHECK(below.bottom(0) == Approx(-2));
  CHECK(below.top(0) == 0);
}

TEST_CASE("Flattening undoes shaping, and shaping never turns a layer over", "[unit][mesh]")
{
  Case c            = with_v(Preparation::single_v);
  c.weld.cap        = {2.5, 14};
  c.weld.root_bead  = {1, 5};
  c.weld.toe_radius = 1;
  c.coupon.taper    = 1.5;
  const CouponShape shape(c, Extent::full);
  for (double x = -79; x < 80; x += 0.37)
  {
    double below = -1e9;
    for (double y = 0; y <= 10; y += 0.25)
    {
      const CouponPoint flat{x, y, 0}, shaped = shape.shaped(flat);
      CHECK(shaped.y > below + 0.2);
      below = shaped.y;
      CHECK(shape.flattened(shaped).y == Approx(y).margin(1e-9));
    }
  }
}

TEST_CASE("The plunger first touches a cap, the thick side, or nothing before the plate",
          "[unit][mesh]")
{
  Case c = reference_case();
  CHECK(rise_under_plunger(c) == 0);
  c                 = with_v(Preparation::single_v);
  c.weld.bend       = BendKind::root;
  c.weld.cap        = {2, 14};
  c.weld.toe_radius = 1;
  CHECK(rise_under_plunger(c) == Approx(2));
  CHECK(coupon_level(c) == Approx(contact_band(c)));
  // A taper of 2 mm over 160 mm leans by 1 in 80; a nose of radius 20 touches a plane with
  // that slope R (sqrt(1 + m^2) - 1) above the middle.
  c              = reference_case();
  c.coupon.taper = 2;
  const double m = 2. / 160;
  CHECK(rise_under_plunger(c) == Approx(20 * (std::sqrt(1 + m * m) - 1)).epsilon(0.02));
  // 100 mm off the centre its middle is 100 m thinner; a nose of radius 2 is no wider than
  // the steps in which a long coupon is looked at.
  c.coupon.length   = 3000;
  c.coupon.offset   = 100;
  c.fixture.plunger = {4, 2};
  const double lean = 2. / 3000;
  CHECK(rise_under_plunger(c) ==
        Approx(-100 * lean + 2 * (std::sqrt(1 + lean * lean) - 1)).epsilon(0).margin(1e-6));
}

TEST_CASE("Strength steps keep their order however narrow the zones are", "[unit][mesh]")
{
  for (const double transition : {0., 0.5, 1., 6.})
    for (const double haz : {0., 0.5, 4.})
      for (const double width : {0.8, 12.})
      {
        Weld w;
        w.width               = width;
        w.haz_width           = haz;
        w.transition          = transition;
        const StrengthSteps s = strength_steps(w, 10);
        CHECK(s.weld_ends <= 0);
        CHECK(s.weld_ends > -width / 2);
        CHECK(s.haz_begins >= 0);
        if (haz > 0)
        {
          CHECK(s.haz_ends >= s.haz_begins);
          CHECK(s.base_begins >= s.haz_ends);
        }
      }
}
