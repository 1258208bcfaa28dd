// A pressed elastic block dragged over a rigid plane: it sticks until friction times force,
// then slips at just that; turned about it sticks again and slips the other way; what it
// costs is friction times force times way. Coulomb's law; block and ways are invented.

#include "tests/verify/ladder.h"
#include "tests/verify/pressed_body.h"

#include <catch2/catch.hpp>
#include <deal.II/grid/grid_generator.h>

#include <cmath>

using namespace throughbend;

namespace
{
void drag_block(Rung &rung, double mu)
{
  constexpr double         E = 200000, width = 10, height = 6, pressed = 0.02, way = 0.1;
  dealii::Triangulation<2> mesh;
  dealii::GridGenerator::subdivided_hyper_rectangle(mesh, {10, 6}, dealii::Point<2>(0, 0),
                                                    dealii::Point<2>(width, height), true);
  for (const auto &face : mesh.active_face_iterators())
    if (face->at_boundary() && face->boundary_id() != 2)
      face->set_boundary_id(static_cast<dealii::types::boundary_id>(CouponFace::side));
  // Springs as in a pass on a 10 mm coupon.
  PressedBody<2> body(
      mesh, [](const dealii::Point<2> &x, unsigned) { return x[1] > height - 1e-9; },
      {E, 0.3}, {{tool_at::right_shoulder, flat_face({0, 0}, {0, 1}), mu}},
      {88000, 44000, 5e-3, 5e-3}, {1e-10, 1e-6, 1., 40});
  const auto top = [](double along) {
    return [=](const dealii::Point<2> &, unsigned c) { return c == 0 ? along : -pressed; };
  };
  const auto ratio = [&]
  {
    const ToolForce plane = body.force(tool_at::right_shoulder);
    return -plane.force_x / plane.normal;
  };
  const auto slipping = [&]
  {
    const ToolForce plane = body.force(tool_at::right_shoulder);
    return plane.slipping / plane.normal;
  };
  const std::string which = "mu " + std::to_string(mu).substr(0, 4) + ": ";

  body.start();
  body.go(0, top(0), 10);
  // Pressing alone makes the block spread and its edges slip a little; that is not yet the
  // drag's doing.
  const double lost_by_pressing = body.books().friction;

  double largest = 0, all_slip_at = 0, share_before = 0;
  body.go(0, top(way), 100,
          [&]
          {
            largest = std::max(largest, std::abs(ratio()));
            if (slipping() < 1 - 1e-12)
              share_before = ratio() / mu;
            else if (all_slip_at == 0)
              all_slip_at = ratio() / mu;
          });
  rung.row(which + "largest drag / force on the way [-]", mu, largest, no_more(1e-8));
  rung.row(which + "drag / (mu force) in the last step with a point that sticks [-]", 1,
           share_before, no_more());
  rung.row(which + "drag / (mu force) in the first step in which all slips [-]", 1,
           all_slip_at, within(1e-8));
  rung.row(which + "drag / force, slipping [-]", mu, ratio(), within(1e-8));

  const double before = body.books().friction;
  const double normal = body.force(tool_at::right_shoulder).normal;
  body.go(0, top(2 * way), 10);
  rung.row(which + "friction work over 0.1 mm, mu force way [N mm/mm]", mu * normal * way,
           body.books().friction - before, within_percent(0.1));

  // Turned about: at once everything sticks, then it slips the other way.
  double first_slip = 1;
  bool   first      = true;
  body.go(0, top(way), 200,
          [&]
          {
            if (first)
              first_slip = slipping();
            first = false;
          });
  rung.row(which + "slipping share just after turning about [-]", 0, first_slip,
           within(1e-12));
  rung.row(which + "drag / force, slipping back [-]", -mu, ratio(), within(1e-8));
  rung.row(which + "friction work of pressing / of dragging [-]", 0,
           lost_by_pressing / body.books().friction, within(0.05));
  rung.row(which + "energy error [-]", 0, body.energy_error(), within(0.005));
}
} // namespace

TEST_CASE("A pressed block sticks until friction times force and slips at just that, both "
          "ways",
          "[verify]")
{
  Rung rung("friction_block", "Coulomb friction: an elastic block dragged over a plane",
            "Coulomb (1785), drag = mu force while slipping, less while sticking; closed "
            "form");
  drag_block(rung, 0.12);
  drag_block(rung, 0.3);
  rung.note("Block 10 x 6 mm, E 200 GPa, pressed in by 0.02 mm, its upper face dragged by "
            "0.2 mm and half the way back; contact springs as in a pass.");
}
