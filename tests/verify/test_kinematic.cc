// One element pulled and pushed between fixed strains against the closed form of Armstrong
// and Frederick's law, and the tangents of update and element with a backstress.

#include "meshes/setup/placed_coupon.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"
#include "tests/solver/fem/tangent_quotient.h"
#include "tests/support/update_quotient.h"
#include "tests/verify/body.h"
#include "tests/verify/ladder.h"

#include <deal.II/grid/grid_generator.h>

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <string>

using namespace throughbend;

namespace
{
constexpr double tiny = 1e-9, bound = 1e-6;
constexpr double young = 210000, yield = 250, saturation = 150, rate = 60;

/// The yield surface keeps its size: all hardening is kinematic.
ZoneMaterial shifting_steel()
{
  FlowCurve flow;
  flow.law          = HardeningLaw::voce;
  flow.yield        = yield;
  flow.saturation   = saturation;
  flow.rate         = rate;
  ZoneMaterial zone = metal(young, 0.3, flow);
  zone.kinematic    = {saturation, rate};
  return zone;
}

struct Turn
{
  double stress = 0, plastic = 0, backstress = 0;
};

/// The branch from `start` to total strain `e`: stress = v yield + X, X = v saturation +
/// (X_start - v saturation) exp(-v rate (e_p - start)), stress = young (e - e_p).
Turn closed_form(const Turn &start, double e)
{
  const double v       = e > start.plastic + start.stress / young ? 1 : -1;
  const auto   shifted = [&](double plastic)
  {
    return v * saturation + (start.backstress - v * saturation) *
                                std::exp(-v * rate * (plastic - start.plastic));
  };
  double low = start.plastic, high = start.plastic;
  (v > 0 ? high : low) += v * 0.1;
  for (int i = 0; i < 100; ++i)
  {
    const double middle                                               = (low + high) / 2;
    (v * yield + shifted(middle) < young * (e - middle) ? low : high) = middle;
  }
  return {young * (e - low), low, shifted(low)};
}

template <int dim>
void tangent_rows(Rung &rung)
{
  const std::string in   = dim == 2 ? ", 2D [-]" : ", 3D [-]";
  const auto        with = [](Case c)
  {
    c.material.kinematic = {100, 20};
    return zone_materials(c);
  };
  const ZoneMaterial                     zone = with(reference_case())[0];
  std::mt19937                           random(dim + 90);
  std::uniform_real_distribution<double> entry(-0.05, 0.05);
  double                                 update = 0;
  for (int path = 0; path < 20; ++path)
  {
    Matrix3      F = unit;
    PlasticState state;
    for (int step = 0; step < 3; ++step)
    {
      Matrix3 further = unit;
      for (std::size_t i = 0; i < dim; ++i)
        for (std::size_t j = 0; j < dim; ++j)
          further[i][j] += entry(random);
      F      = product(further, F);
      update = std::max(update, update_tangent_error<dim>(F, state, zone));
      state  = plastic_update<dim>(F, state, zone).state;
    }
  }
  rung.row("tangent of the update, flowing" + in, 0, update, no_more(bound));

  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<dim>       equilibrium(model, with(c));
  Vector                 u(model.n_dofs());
  double                 element = 0, skew = 0;
  for (int step = 0; step < 2; ++step)
  {
    shake(u, random, dim == 2 ? 0.06 : 0.12);
    const auto [error, asymmetry] = tangent_errors(model, equilibrium, u);
    element                       = std::max(element, error);
    skew                          = std::max(skew, asymmetry);
    forces(equilibrium, u);
    equilibrium.history().accept();
  }
  rung.row("tangent of the element, flowing, with history" + in, 0, element,
           no_more(bound));
  // Were it symmetric, the element's path for unsymmetric tangents would not be tested.
  CHECK(skew > 1e-4);
}
} // namespace

TEST_CASE("One element runs round the loops of a metal that shifts its yield surface",
          "[verify]")
{
  Rung rung(
      "kinematic", "Pull and push of one element with nonlinear kinematic hardening",
      "Armstrong & Frederick 1966, CEGB report RD/B/N731; closed form of the branches "
      "and of the stabilised loop, Y + C/gamma tanh(gamma range/2), Lemaitre & "
      "Chaboche 1990, sec. 5.4.4 (from memory, derived again here and evaluated "
      "independently of the program); metal invented");
  constexpr double         length = 10;
  dealii::Triangulation<3> shape;
  dealii::GridGenerator::subdivided_hyper_rectangle(
      shape, {1, 1, 1}, dealii::Point<3>(), dealii::Point<3>(length, length, length));
  const auto element = [&]
  {
    return Body<3>(
        shape,
        [=](const dealii::Point<3> &node, unsigned component)
        { return node[component] < tiny || (component == 0 && node[0] > length - tiny); },
        shifting_steel(),
        [=](const dealii::Point<3> &node, unsigned component, double load)
        { return component == 0 && node[0] > length - tiny ? load : 0.; });
  };
  Body<3>    body      = element();
  const auto stress_at = [&](double strain) // Kirchhoff stress = stretch times nominal
  {
    body.go(length * std::expm1(strain), 4);
    double force = 0;
    for (unsigned i = 0; i < body.model().n_dofs(); ++i)
      if (body.component(i) == 0 && body.model().nodes()[i][0] > length - tiny)
        force += body.forces()[i];
    return force / (length * length) * std::exp(strain);
  };

  const double amplitude = 0.01;
  Turn         turn;
  double       ours = 0;
  for (int half = 0; half < 12; ++half)
  {
    const double end = half % 2 == 0 ? amplitude : -amplitude;
    if (half == 1)
    {
      const double early = 0.0068; // isotropic, this would still be elastic
      rung.row("stress soon after the first turn, at strain 0.0068 [MPa]",
               closed_form(turn, early).stress, stress_at(early), within_percent(0.01));
    }
    turn = closed_form(turn, end);
    ours = stress_at(end);
    if (half < 4)
      rung.row("stress at the end of branch " + std::to_string(half + 1) + " [MPa]",
               turn.stress, ours, within_percent(0.01));
  }
  double loop = yield + saturation; // fixed point of stress = Y + S tanh(rate range/2)
  for (int i = 0; i < 200; ++i)
    loop = yield + saturation * std::tanh(rate * (amplitude - loop / young));
  rung.row("stress amplitude of the stabilised loop [MPa]", loop, std::abs(ours),
           within_percent(0.01));
  Body<3> fine = element();
  fine.go(length * std::expm1(amplitude), 60);
  fine.go(length * std::expm1(-amplitude), 120);
  rung.row("energy error of a pull and push in 180 steps [-]", 0, fine.energy_error(),
           no_more(0.005));
  rung.note("The update integrates the law exactly while the direction of flow stays, so "
            "four steps a branch are enough for the stresses; the books of work need finer "
            "ones, because they go by trapezium over the kink of yielding.");
  tangent_rows<2>(rung);
  tangent_rows<3>(rung);
}
