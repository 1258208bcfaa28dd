// A thin strip drawn round a rigid bar: the ratio of its two tensions against the capstan
// formula.

#include "tests/verify/ladder.h"
#include "tests/verify/pressed_body.h"

#include <catch2/catch.hpp>
#include <deal.II/grid/grid_generator.h>
#include <deal.II/grid/grid_tools.h>

#include <cmath>

using namespace throughbend;

namespace
{
constexpr double degree = 3.14159265358979323846 / 180;
constexpr double R = 20, thickness = 0.1, leg = 6;

/// The strip's middle line: leg, arc on top of the bar, leg; s from the arc's middle.
PlaneVector on_strip(double s, double height, double wrap)
{
  const double      half = wrap / 2, middle = R + thickness / 2, arc = half * middle;
  const double      over  = std::max(0., std::abs(s) - arc) * (s < 0 ? -1 : 1);
  const double      angle = std::clamp(s, -arc, arc) / middle;
  const PlaneVector n = {std::sin(angle), std::cos(angle)}, t = {n.y, -n.x};
  return (R + height) * n + over * t;
}

struct Tensions
{
  double slack = 0, tight = 0; ///< [N/mm]
  double slipping = 0, energy_error = 0;
};

Tensions draw(double wrap, double mu)
{
  const double half_length = wrap / 2 * (R + thickness / 2) + leg;
  const auto   pieces      = static_cast<unsigned>(std::lround(2 * half_length / 0.25));
  dealii::Triangulation<2> mesh;
  dealii::GridGenerator::subdivided_hyper_rectangle(
      mesh, {pieces, 1}, dealii::Point<2>(-half_length, 0),
      dealii::Point<2>(half_length, thickness), true);
  for (const auto &face : mesh.active_face_iterators())
    if (face->at_boundary() && face->boundary_id() != 2)
      face->set_boundary_id(static_cast<dealii::types::boundary_id>(CouponFace::side));
  dealii::GridTools::transform(
      [=](const dealii::Point<2> &p)
      {
        const PlaneVector x = on_strip(p[0], p[1], wrap);
        return dealii::Point<2>(x.x, x.y);
      },
      mesh);
  // The ends' sections, found by their distance from the arc along the leg.
  const PlaneVector along_right = {std::cos(wrap / 2), -std::sin(wrap / 2)},
                    along_left  = {-along_right.x, along_right.y};
  const auto at_right           = [=](const dealii::Point<2> &x) {
    return x[0] > 0 && dot({x[0], x[1]}, along_right) > leg - 1e-6;
  };
  const auto at_left = [=](const dealii::Point<2> &x) {
    return x[0] < 0 && dot({x[0], x[1]}, along_left) > leg - 1e-6;
  };

  PressedBody<2> body(
      mesh, [=](const dealii::Point<2> &x, unsigned) { return at_right(x) || at_left(x); },
      {200000, 0.3}, {{tool_at::right_shoulder, RigidProfile::disc({0, 0}, R), mu}},
      {2000, 20000, 1e-3, 1e-3}, {1e-6, 1e-2, 0.5, 40}, 1e-6);
  const auto pull = [=](double right, double left)
  {
    return [=](const dealii::Point<2> &x, unsigned c)
    {
      const PlaneVector way = x[0] > 0 ? right * along_right : left * along_left;
      return c == 0 ? way.x : way.y;
    };
  };
  body.start();
  // Tight first, then drawn to the right until all of it slips.
  const double tight = 0.002 * half_length;
  body.go(0, pull(tight, tight), 10);
  body.go(0, pull(tight + 1, tight - 1), 40);

  const auto tension = [&](PlaneVector along, const auto &region)
  { return along.x * body.reaction(0, region) + along.y * body.reaction(1, region); };
  const ToolForce bar = body.force(tool_at::right_shoulder);
  return {tension(along_left, at_left), tension(along_right, at_right),
          bar.slipping / bar.normal, body.energy_error()};
}
} // namespace

TEST_CASE("A strip drawn round a bar needs the tension ratio of the capstan formula",
          "[verify]")
{
  Rung rung("capstan", "Capstan: a thin strip drawn round a rigid bar",
            "Euler (1769), Eytelwein (1808): T2/T1 = exp(mu angle), closed form");
  const struct
  {
    double mu, ratio[3]; // at 45, 90, 180 degrees
  } published[]      = {{0.1, {1.082, 1.170, 1.369}},
                        {0.15, {1.125, 1.266, 1.602}},
                        {0.2, {1.170, 1.369, 1.875}},
                        {0.3, {1.266, 1.602, 2.566}}};
  const int angles[] = {45, 90, 180};
  double    energy = 0, slipping = 1;
  for (const auto &row : published)
    for (int k = 0; k < 3; ++k)
    {
      const Tensions found = draw(angles[k] * degree, row.mu);
      energy               = std::max(energy, found.energy_error);
      slipping             = std::min(slipping, found.slipping);
      rung.row("T2/T1 at mu " + std::to_string(row.mu).substr(0, 4) + ", " +
                   std::to_string(angles[k]) + " deg [-]",
               row.ratio[k], found.tight / found.slack, within_percent(1));
    }
  rung.row("least slipping share of the normal force [-]", 1, slipping, within(1e-6));
  rung.row("largest energy error [-]", 0, energy, within(0.005));
  rung.note(
      "Strip 0.1 mm on a bar of 20 mm, stretched by 0.2 % (about 44 N/mm) and drawn by 1 "
      "mm. What the formula leaves out: stiffness against bending, E' t^3 / 12 R^2 = "
      "0.046 N/mm, about 0.1 to 0.2 % of the tensions; friction acting half a thickness "
      "beside the middle line, t / 2R = 0.25 % of mu angle, so up to 0.24 % at mu 0.3 "
      "and 180 deg.");
}
