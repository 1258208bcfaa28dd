// Springback of a strip in pure bending against Gardiner's formula, the stresses it leaves,
// and the forces across a leg of a released coupon, which must vanish.

#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"
#include "tests/support/reference_case.h"
#include "tests/verify/bent_strip.h"
#include "tests/verify/ladder.h"

#include <catch2/catch.hpp>
#include <deal.II/base/quadrature_lib.h>
#include <deal.II/fe/fe.h>

#include <cmath>
#include <string>

using namespace throughbend;

namespace
{
constexpr double young = 200000, poisson = 0.3, yield = 250; // [MPa]
const double     plane_yield = 2 / std::sqrt(3.) * yield;
constexpr double plane_young = young / (1 - poisson * poisson);
constexpr double t           = BentStrip::thickness;
const double     full_moment = plane_yield * t * t / 4; // [N]

/// Turns the strip back until it carries no moment; steps by the last stiffness seen.
void let_go(BentStrip &strip)
{
  double bend = strip.bending(), moment = strip.moment();
  double stiffness = plane_young * t * t / 12; // moment over bending [N]
  for (int i = 0; i < 12 && std::abs(moment) > 1e-6 * full_moment; ++i)
  {
    // The first one stops short: beyond no moment it would load again.
    const double goal = bend - (i == 0 ? 0.9 : 1.) * moment / stiffness;
    strip.bend(goal, i == 0 ? 8 : 2);
    stiffness = (strip.moment() - moment) / (strip.bending() - bend);
    bend      = strip.bending();
    moment    = strip.moment();
  }
  REQUIRE(std::abs(moment) < 1e-5 * full_moment);
}

/// Weights of the points of across(), three Gauss points per layer [mm].
double weight(std::size_t point, int layers)
{
  return (point % 3 == 1 ? 8. : 5.) / 18 * t / layers;
}

std::string bent_to(double bend)
{
  return "bent to t/R = " + std::to_string(bend).substr(0, 4);
}

/// Force and moment per mm of width that act across the coupon at one stretch of its
/// length, from the stresses: the resultant of P = tau F^-T over the flat section, mean
/// over the columns of cells between two places.
struct SectionForces
{
  double along = 0, across = 0; ///< [N/mm]
  double moment = 0;            ///< about the section's middle [N]
};

SectionForces section_forces(const PassView<2> &view, double from, double to)
{
  const auto   &model = view.model;
  const auto    n     = model.n_nodes_per_cell();
  const double  half  = view.setup.coupon.thickness / 2;
  SectionForces sum;
  double        volume = 0, middle_x = 0, middle_y = 0;
  struct Point
  {
    double x, y, force_x, force_y;
  };
  std::vector<Point>      points;
  const dealii::QGauss<2> rule(3);
  const auto             &element = model.dof_handler().get_fe().base_element(0);
  for (std::size_t c = 0; c < model.cells().size(); ++c)
  {
    const CellData<2> &cell = model.cells()[c];
    const double       mid  = cell.cell->center()[0];
    if (mid < from || mid > to)
      continue;
    for (unsigned q = 0; q < model.n_points_per_cell(); ++q)
    {
      double F[2][2] = {{1, 0}, {0, 1}};
      for (int i = 0; i < 2; ++i)
        for (int k = 0; k < 2; ++k)
          for (unsigned a = 0; a < n; ++a)
            F[i][k] += cell.gradient[(q * 2 + static_cast<unsigned>(k)) * n + a] *
                       view.u[cell.dofs[static_cast<unsigned>(i) * n + a]];
      const Matrix3 &tau =
          view.equations.equilibrium().kirchhoff(view.equations.equilibrium().point(c, q));
      const double det = F[0][0] * F[1][1] - F[0][1] * F[1][0];
      // P e_X = tau F^-T e_X, with the first row of F^-1.
      const double r[2] = {F[1][1] / det, -F[0][1] / det};
      // Where the point is now: the cell's nodes by the point's own shape values.
      double x = 0, y = 0;
      for (unsigned a = 0; a < n; ++a)
      {
        const double N = element.shape_value(a, rule.point(q));
        x += N * (model.nodes()[cell.dofs[a]][0] + view.u[cell.dofs[a]]);
        y += N * (model.nodes()[cell.dofs[n + a]][1] + view.u[cell.dofs[n + a]]);
      }
      const double w = cell.weight[q];
      points.push_back({x, y, w * (tau[0][0] * r[0] + tau[0][1] * r[1]),
                        w * (tau[1][0] * r[0] + tau[1][1] * r[1])});
      volume += w;
      middle_x += w * x;
      middle_y += w * y;
    }
  }
  const double length = volume / (2 * half);
  middle_x /= volume;
  middle_y /= volume;
  for (const Point &p : points)
  {
    sum.along += p.force_x / length;
    sum.across += p.force_y / length;
    sum.moment += ((p.x - middle_x) * p.force_y - (p.y - middle_y) * p.force_x) / length;
  }
  return sum;
}

class LegWatcher : public PassObserver<2>
{
public:
  void step_accepted(const PassView<2> &view, const PassSample &sample) override
  {
    (sample.kind == StepKind::release ? free : loaded) = section_forces(view, 24, 28);
  }
  SectionForces loaded, free;
};
} // namespace

TEST_CASE("A bent strip springs back by Gardiner's formula and keeps stresses in balance",
          "[verify]")
{
  Rung rung(
      "springback", "Springback in pure bending, and stresses left behind",
      "Gardiner (1957), R_i/R_f = 4 x^3 - 3 x + 1, x = R Y/(E t), with plane-strain "
      "constants (textbook, from memory); left-over stresses by elastic unloading of a "
      "plastic section (elementary)");
  rung.note("Strip of 10 mm in plane strain, 8 layers, Y 250 MPa without hardening, E 200 "
            "GPa, nu 0.3; bent by its end plane and turned back until no moment is left. R "
            "is the radius of the middle.");
  constexpr int layers = 8;
  FlowCurve     perfect;
  perfect.yield = yield;
  for (const double bend : {0.05, 0.1, 0.2, 0.4})
  {
    StripMesh mesh;
    mesh.layers = layers;
    BentStrip strip(mesh, metal(young, poisson, perfect));
    strip.bend(bend, bend < 0.15 ? 40 : 80);
    const double R = (strip.inner_radius() + strip.outer_radius()) / 2;
    const double x = R * plane_yield / (plane_young * t);
    let_go(strip);
    rung.row("loss of angle, " + bent_to(bend) + " [%]", 100 * (3 * x - 4 * x * x * x),
             100 * (1 - strip.bending() / bend), within_percent(1.5));
    const auto   across = strip.across();
    double       force = 0, moment = 0;
    const double middle = (strip.inner_radius() + strip.outer_radius()) / 2;
    for (std::size_t i = 0; i < across.size(); ++i)
    {
      force += weight(i, layers) * across[i].hoop;
      moment += weight(i, layers) * across[i].hoop * (across[i].radius - middle);
    }
    rung.row("left-over force / (Y' t), " + bent_to(bend) + " [-]", 0,
             force / (plane_yield * t), within(0.005));
    rung.row("left-over moment / M_p, " + bent_to(bend) + " [-]", 0, moment / full_moment,
             within(0.005));
    if (bend < 0.15)
    {
      // Both faces, so that the curvature's first-order share drops out.
      const double eta = (across.back().radius - across.front().radius) / t;
      const double K   = 2 * x; // kappa_e / kappa
      rung.row("left-over stress near the faces, mean of both / Y', " + bent_to(bend) +
                   " [-]",
               1 - 1.5 * (1 - K * K / 3) * eta,
               (across.back().hoop - across.front().hoop) / 2 / plane_yield, within(0.02));
    }
  }
  rung.note("1.5 % of the loss: the formula knows neither the thinning nor the finite "
            "curvature (about 1 % at t/R = 0.4).");
}

TEST_CASE("Nothing pulls or bends across a leg of a released coupon", "[verify]")
{
  Rung rung("free_section", "A section of a released coupon carries nothing",
            "Equilibrium: integral sigma dA = 0, integral sigma y dA = 0 (elementary)");
  Case c       = reference_case();
  c.ram.stroke = 60;
  PassSimulation<2> simulation(set_up(c), MPI_COMM_WORLD);
  LegWatcher        watcher;
  simulation.attach(watcher);
  simulation.run();
  REQUIRE(simulation.release().completed);
  const double Y      = c.material.flow.initial_stress() * 2 / std::sqrt(3.);
  const double M_p    = Y * c.coupon.thickness * c.coupon.thickness / 4;
  const auto  &loaded = watcher.loaded;
  const auto  &free   = watcher.free;
  rung.note(
      "Reference case R, 60 mm of travel, cells 24 to 28 mm from the middle, where the "
      "coupon is bent. Loaded, the moment there is " +
      std::to_string(loaded.moment / M_p).substr(0, 5) + " M_p.");
  CHECK(std::abs(loaded.moment) > 0.5 * M_p);
  rung.row("force along x after release / (Y' t) [-]", 0,
           free.along / (Y * c.coupon.thickness), within(0.005));
  rung.row("force along y after release / (Y' t) [-]", 0,
           free.across / (Y * c.coupon.thickness), within(0.005));
  rung.row("moment after release / M_p [-]", 0, free.moment / M_p, within(0.01));
}
