// Patch tests of contact: where body and tool fit each other the pressure must be uniform,
// its sum the force, and no shear may be left. A ring on a round bar (curved tool), in the
// plane and extruded, and flat blocks. Bodies are invented; solutions are closed forms.

#include "tests/verify/ladder.h"
#include "tests/verify/pressed_body.h"

#include <catch2/catch.hpp>
#include <deal.II/grid/grid_generator.h>
#include <deal.II/grid/grid_tools.h>

#include <cmath>

using namespace throughbend;

namespace
{
constexpr double pi = 3.14159265358979323846;

/// What contact points and stresses show of uniformity.
struct Spread
{
  double least = 1e300, most = 0, mean = 0; ///< pressure per undeformed area [MPa]
  double gap   = 0; ///< mean, less what it was at first between chord and bar [mm]
  double shear = 0; ///< largest in the body's frame [MPa]
};

/// Shear is taken along the radius (`round`) or along x and y.
enum class Frame
{
  straight,
  round
};

template <int dim>
Spread spread_of(const PressedBody<dim> &body, Frame frame)
{
  Spread      spread;
  const auto &model   = body.model();
  const auto &contact = body.equations().contact();
  double      area = 0, force = 0, gap = 0;
  for (std::size_t f = 0; f < model.faces().size(); ++f)
    for (std::size_t q = 0; q < model.faces()[f].weight.size(); ++q)
    {
      const ContactState &state = contact.latest(f, q, 0);
      const double        w     = model.faces()[f].weight[q];
      spread.least              = std::min(spread.least, state.pressure);
      spread.most               = std::max(spread.most, state.pressure);
      area += w;
      force += w * state.pressure;
      const auto &x = model.faces()[f].position[q];
      gap += w * (state.gap - (frame == Frame::round ? std::hypot(x[0], x[1]) - 20 : 0.));
    }
  spread.mean = force / area;
  spread.gap  = gap / area;
  for (std::size_t c = 0; c < model.cells().size(); ++c)
  {
    const auto   centre = model.cells()[c].cell->center();
    const double a      = frame == Frame::round ? std::atan2(centre[1], centre[0]) : 0.;
    // The middle of a cell's points is its centre: there the direction is known best.
    const std::size_t q = (model.n_points_per_cell() - 1) / 2;
    const Matrix3    &t = body.equations().equilibrium().kirchhoff(
           body.equations().equilibrium().point(c, q));
    const double c2 = std::cos(2 * a), s2 = std::sin(2 * a);
    spread.shear =
        std::max(spread.shear, std::abs((t[1][1] - t[0][0]) / 2 * s2 + t[0][1] * c2));
  }
  return spread;
}

/// A quarter of a ring, inner face `convex` for contact, `pieces` round and `layers` deep.
template <int dim>
void make_quarter(dealii::Triangulation<dim> &mesh, double inner, double outer,
                  unsigned pieces, unsigned layers)
{
  dealii::Triangulation<2> flat;
  dealii::GridGenerator::subdivided_hyper_rectangle(flat, {layers, pieces},
                                                    dealii::Point<2>(inner, 0),
                                                    dealii::Point<2>(outer, pi / 2), true);
  if constexpr (dim == 2)
    mesh.copy_triangulation(flat);
  else
    dealii::GridGenerator::extrude_triangulation(flat, 2, 1., mesh);
  dealii::GridTools::transform(
      [](const dealii::Point<dim> &p)
      {
        dealii::Point<dim> x(p);
        x[0] = p[0] * std::cos(p[1]);
        x[1] = p[0] * std::sin(p[1]);
        return x;
      },
      mesh);
  for (const auto &cell : mesh.active_cell_iterators())
    for (const auto &face : cell->face_iterators())
      if (face->at_boundary())
        face->set_boundary_id(static_cast<dealii::types::boundary_id>(
            face->boundary_id() == 0 ? CouponFace::convex : CouponFace::side));
}

template <int dim>
void check_ring(Rung &rung, const std::string &which)
{
  constexpr double           E = 200000, nu = 0.3, a = 20, b = 24, in = 0.02;
  constexpr unsigned         pieces = dim == 2 ? 320 : 160;
  dealii::Triangulation<dim> mesh;
  make_quarter<dim>(mesh, a, b, pieces, dim == 2 ? 4 : 2);
  const auto outside = [=](const dealii::Point<dim> &x)
  { return std::hypot(x[0], x[1]) > b - 0.01; };
  // A chord's middle lies a^2 angle^2 / 8 inside the bar: 0.0000602 mm with 320 pieces. The
  // springs must be soft against that and may be soft: the closed form knows them.
  const ContactStiffness spring{dim == 2 ? 20000. : 5000., 10000, 1e-3, 2e-3};
  PressedBody<dim>       body(
            mesh,
            [=](const dealii::Point<dim> &x, unsigned c) {
        return outside(x) || c == 2 || (c == 0 && x[0] < 1e-6) || (c == 1 && x[1] < 1e-6);
      },
            {E, nu}, {{tool_at::right_shoulder, RigidProfile::disc({0, 0}, a), 0.}}, spring,
            {1e-10, 1e-6, 1., 30});
  body.start();
  body.go(
      0,
      [=](const dealii::Point<dim> &x, unsigned c)
      { return outside(x) ? (c == 2 ? 0. : -in * x[c] / std::hypot(x[0], x[1])) : 0.; },
      10);
  const Spread spread = spread_of(body, Frame::round);

  // Lame (1852) in plane strain, u = A r + B / r, outside driven in by `in`, inside resting
  // on springs as deep as the gaps say: p = -sigma_rr(a) = -(2 (lambda + G) A - 2 G B /
  // a^2).
  const double G = E / (2 * (1 + nu)), lambda = 2 * G * nu / (1 - 2 * nu);
  const double inner = spread.gap; // u(a), negative: it went in
  const double A = (-in * b - inner * a) / (b * b - a * a), B = inner * a - A * a * a;
  const double p = -(2 * (lambda + G) * A - 2 * G * B / (a * a));
  rung.row(which + ": pressure, Lame [MPa]", p, spread.mean, within_percent(1));
  rung.row(which + ": least / mean pressure [-]", 1, spread.least / spread.mean,
           within_percent(1));
  rung.row(which + ": largest / mean pressure [-]", 1, spread.most / spread.mean,
           within_percent(1));
  const ToolForce tool = body.force(tool_at::right_shoulder);
  rung.row(which + ": force along x, pressure x area seen from there [N/mm]",
           spread.mean * a, tool.force_x, within_percent(0.1));
  rung.row(which + ": force along y [N/mm]", spread.mean * a, tool.force_y,
           within_percent(0.1));
  const auto all = [](const dealii::Point<dim> &) { return true; };
  rung.row(which + ": tool + supports along x / tool force [-]", 0,
           (tool.force_x + body.reaction(0, all)) / tool.force_x, within(1e-6));
  rung.row(which + ": largest shear / pressure [-]", 0, spread.shear / spread.mean,
           within(0.01));
  rung.row(which + ": energy error [-]", 0, body.energy_error(), within(0.005));
}

struct Block
{
  double           width = 1, height = 1;
  BodyMetal        metal;
  double           strain = 0; ///< pushed in / height, springs included
  ContactStiffness spring;
};

/// Pushes a block down with a flat plunger on a fixed flat; both faces are contact.
void press_block(Rung &rung, const Block &block, const std::string &which)
{
  dealii::Triangulation<2> mesh;
  dealii::GridGenerator::subdivided_hyper_rectangle(
      mesh, {4, 3}, dealii::Point<2>(0, 0), dealii::Point<2>(block.width, block.height),
      true);
  // Ends are no contact faces: the flats must not feel their corners.
  for (const auto &face : mesh.active_face_iterators())
    if (face->at_boundary() && face->boundary_id() < 2)
      face->set_boundary_id(static_cast<dealii::types::boundary_id>(CouponFace::side));
  const double   travel = block.strain * block.height;
  PressedBody<2> body(
      mesh, [](const dealii::Point<2> &x, unsigned c) { return c == 0 && x[0] < 1e-9; },
      block.metal,
      {{tool_at::plunger, flat_face({0, block.height}, {0, -1}), 0.},
       {tool_at::right_shoulder, flat_face({0, 0}, {0, 1}), 0.}},
      block.spring, {1e-7, 1e-6 * block.metal.young, 1., 30});
  body.start();
  body.go(travel, 4);

  const auto &model   = body.model();
  const auto &contact = body.equations().contact();
  double      least = 1e300, most = 0, gaps = 0;
  for (std::size_t f = 0; f < model.faces().size(); ++f)
    for (std::size_t q = 0; q < model.faces()[f].weight.size(); ++q)
    {
      const std::size_t   k     = model.faces()[f].name == CouponFace::concave ? 0 : 1;
      const ContactState &state = contact.latest(f, q, k);
      least                     = std::min(least, state.pressure);
      most                      = std::max(most, state.pressure);
      if (f == 0 && q == 0)
        gaps = state.gap;
    }
  // Both springs give alike, so the block takes the travel less twice the depth.
  const double nu = block.metal.poisson, strain = (travel + 2 * gaps) / block.height;
  const double p     = block.metal.young / (1 - nu * nu) * strain;
  double       shear = 0;
  for (std::size_t i = 0; i < model.cells().size() * model.n_points_per_cell(); ++i)
    shear = std::max(shear, std::abs(body.equations().equilibrium().kirchhoff(i)[0][1]));
  rung.row(which + ": pressure, E/(1-nu^2) strain [MPa]", p,
           -body.force(tool_at::plunger).force_y / block.width, within_percent(0.1));
  rung.row(which + ": least / largest pressure [-]", 1, least / most, within(1e-5));
  rung.row(which + ": pressure x width / force of the fixed flat [-]", 1,
           most * block.width / body.force(tool_at::right_shoulder).force_y, within(1e-5));
  rung.row(which + ": largest shear / pressure [-]", 0, shear / p, within(1e-5));
  rung.row(which + ": energy error [-]", 0, body.energy_error(), within(0.005));
}
} // namespace

TEST_CASE("Body and tool that fit press on each other evenly, flat or round, in 2D and 3D",
          "[verify]")
{
  Rung rung(
      "contact_patch", "Contact patch tests: curved tool, flat tool",
      "Lame (1852) thick-walled cylinder, plane strain, closed form; flat blocks "
      "p = E/(1-nu^2) strain as in the patch test of El-Abbasi & Bathe (2001, Comput. "
      "Struct. 79, 1473) and, with nu = 0.4, that of Taylor & Papadopoulos (1991)");
  check_ring<2>(rung, "ring on bar");
  check_ring<3>(rung, "ring on bar, 3D");
  press_block(rung, {1, 0.5, {1e6, 0}, 1e-4, {1e9, 1e9, 1e-7, 0}}, "flat, nu 0");
  press_block(rung, {1, 1, {1000, 0.4}, 2e-4, {1e6, 1e6, 1e-7, 0}}, "flat, nu 0.4");
  rung.note(
      "Ring 20/24 mm, its outside driven in by 0.02 mm onto a rigid bar of 20 mm; "
      "cells have straight edges, so the ring is a polygon (320 pieces a quarter, 160 "
      "in 3D) and the pressure ripples by the springs' stiffness times the chord's "
      "height: the 1 % on uniformity is that.");
  rung.note("Blocks are strained by 1e-4 and 2e-4, so that finite strain stays below the "
            "tolerance; the strain is taken less what the springs gave way.");
}
