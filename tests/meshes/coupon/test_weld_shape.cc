// The weld's section against elementary geometry: widths and areas of triangles, trapezia
// and strips, by hand.

#include "meshes/coupon/weld_shape.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
const double degree = std::acos(-1.) / 180;

Weld bevelled(Preparation preparation, double angle)
{
  Weld w;
  w.preparation    = preparation;
  w.root_opening   = 2;
  w.included_angle = angle * degree;
  w.root_face      = 1.5;
  w.haz_width      = 3;
  return w;
}

double area(const std::vector<PlaneVector> &points)
{
  double twice = 0;
  for (std::size_t i = 0; i < points.size(); ++i)
  {
    const PlaneVector &a = points[i], &b = points[(i + 1) % points.size()];
    twice += a.x * b.y - a.y * b.x;
  }
  return twice / 2;
}

double area_of(const WeldShape &shape, int zone)
{
  double sum = 0;
  for (const ZoneOutline &outline : shape.outlines())
    if (outline.zone == zone)
      sum += area(outline.points);
  return sum;
}
} // namespace

TEST_CASE("A square weld is a rectangle with straight bands beside it", "[unit][weld]")
{
  Weld w;
  w.width     = 12;
  w.haz_width = 4;
  const WeldShape shape(w, 10);
  CHECK(area_of(shape, 2) == Approx(12 * 10));
  CHECK(area_of(shape, 1) == Approx(2 * 4 * 10));
  for (const double height : {0., 3., 10.})
  {
    CHECK(shape.zone(5.9, height) == 2);
    CHECK(shape.zone(-6.1, height) == 1);
    CHECK(shape.zone(9.9, height) == 1);
    CHECK(shape.zone(10.1, height) == 0);
  }
  CHECK(shape.corners().empty());
  CHECK(shape.narrowest() == Approx(12));
  // A band of heat alone, without weld metal.
  w.width     = 0;
  w.haz_width = 5;
  CHECK(WeldShape(w, 10).zone(0.1, 5) == 1);
  CHECK(WeldShape(w, 10).zone(-4.9, 5) == 1);
  CHECK(WeldShape(w, 10).zone(5.1, 5) == 0);
}

TEST_CASE("A single V is a gap and the two triangles of its bevels", "[unit][weld]")
{
  const Weld   w     = bevelled(Preparation::single_v, 60);
  const double slope = std::tan(30 * degree), depth = 10 - 1.5;
  WeldShape    shape(w, 10);
  CHECK(area_of(shape, 2) == Approx(2 * 10 + slope * depth * depth));
  CHECK(shape.narrowest() == Approx(2));
  // Face on the convex side: widest at height 0, its root face at the top.
  CHECK(shape.line(Flank::right, 0, 0) == Approx(1 + slope * depth));
  CHECK(shape.line(Flank::left, 0, 0) == Approx(-1 - slope * depth));
  CHECK(shape.line(Flank::right, 10, 0) == Approx(1));
  REQUIRE(shape.corners().size() == 1);
  CHECK(shape.corners()[0] == Approx(8.5));
  // A root bend turns it over.
  Weld root = w;
  root.bend = BendKind::root;
  const WeldShape turned(root, 10);
  for (const double height : {0., 1., 4., 9.})
    CHECK(turned.line(Flank::right, height, 0) ==
          Approx(shape.line(Flank::right, 10 - height, 0)));
}

TEST_CASE("A double V is two single ones, a single bevel half of one", "[unit][weld]")
{
  const double half = (10 - 1.5) / 2;
  CHECK(area_of(WeldShape(bevelled(Preparation::double_v, 60), 10), 2) ==
        Approx(2 * 10 + 2 * std::tan(30 * degree) * half * half));
  const WeldShape bevel(bevelled(Preparation::single_bevel, 45), 10);
  CHECK(area_of(bevel, 2) == Approx(2 * 10 + 8.5 * 8.5 / 2));
  CHECK(bevel.line(Flank::left, 0, 0) == Approx(-1));
  CHECK(bevel.line(Flank::right, 0, 0) == Approx(1 + 8.5));
}

TEST_CASE("The heat-affected band follows the fusion line at its width", "[unit][weld]")
{
  const WeldShape shape(bevelled(Preparation::single_v, 60), 10);
  // Well away from the corner: 3 mm square to a face that leans by 30 degrees.
  CHECK(shape.line(Flank::right, 1, 3) - shape.line(Flank::right, 1, 0) ==
        Approx(3 / std::cos(30 * degree)));
  for (const double height : {0., 2.5, 7., 8.5, 9.9})
    for (const double distance : {0.5, 3.})
    {
      const double x = shape.line(Flank::right, height, distance);
      CHECK(shape.distance(x, height) == Approx(distance));
      CHECK(shape.distance_on(Flank::left, -x, height) == Approx(distance));
      CHECK(shape.zone(x - 0.01, height) == 1);
      CHECK(shape.zone(x + 0.01, height) == (distance < 3 ? 1 : 0));
    }
  // Strip of 3 mm along a line of length L with one corner turning outward by 30 degrees on
  // the base plate's side: 3 L less 9 tan(15), cut square at the faces: the bevel's end
  // adds 9 tan(30) / 2.
  const double along = 1.5 + 8.5 / std::cos(30 * degree);
  CHECK(area_of(shape, 1) == Approx(2 * (3 * along - 9 * std::tan(15 * degree) +
                                         9 * std::tan(30 * degree) / 2)));
}

TEST_CASE("Penetration moves the fusion line behind the prepared face", "[unit][weld]")
{
  Weld w         = bevelled(Preparation::single_v, 60);
  w.root_opening = 0;
  w.root_face    = 0;
  w.penetration  = 1;
  const WeldShape shape(w, 10);
  CHECK(shape.narrowest() == Approx(2 / std::cos(30 * degree)));
  CHECK(shape.line(Flank::right, 0, 0) ==
        Approx(10 * std::tan(30 * degree) + 1 / std::cos(30 * degree)));
}
