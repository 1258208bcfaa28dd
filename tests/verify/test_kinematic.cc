// One element pulled and pushed between fixed strains against the closed form of Armstrong
// and Frederick's law, and the tangents of update and element with a backstress.

#include "meshes/setup/placed_coupon.h"
#include "solver/setup/set_up.h"
#include "tests/solver/fem/small_coupon.h"
#include "tests/solver/fem/tangent_quotient.h"
#include "tests/support/pulled_bar.h"
#include "tests/support/shifting_metal.h"
#include "tests/support/update_quotient.h"
#include "tests/verify/ladder.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <string>

using namespace throughbend;

namespace
{
constexpr double bound = 1e-6;
/// Invented.
constexpr ShiftingMetal steel{210000, 0.3, 250, 150, 60};

template <int dim>
void tangent_rows(Rung &rung)
{
  const std::string in   = dim == 2 ? ", 2D [-]" : ", 3D [-]";
  const auto        with = [](Case c)
  {
    c.material.kinematic = {100, 20};
    return zone_materials(c);
  };
  const ZoneMaterial zone = with(reference_case())[0];
  std::mt19937       random(dim + 90);
  double             update = 0;
  for (int path = 0; path < 20; ++path)
  {
    Matrix3      F = unit;
    PlasticState state;
    update = std::max(update, flowing_tangent_error<dim>(F, state, zone, random));
  }
  rung.row("tangent of the update, flowing" + in, 0, update, no_more(bound));

  const Case             c = small_coupon<dim>();
  const CouponModel<dim> model(placed_coupon(c), MPI_COMM_WORLD);
  Equilibrium<dim>       equilibrium(model, with(c));
  Vector                 u(model.n_dofs());
  const auto [element, skew] = flowing_tangent_errors(model, equilibrium, u, random);
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
  constexpr double length  = 10;
  const auto       element = [&] {
    return PulledBar<3>({length, length, length}, {1, 1, 1}, steel.material());
  };
  PulledBar<3> body      = element();
  const auto   stress_at = [&](double strain) // Kirchhoff stress = stretch times nominal
  {
    body.strain(strain, 4);
    return body.end_force() / (length * length) * std::exp(strain);
  };

  const double amplitude = 0.01;
  LoopPoint    turn;
  double       ours = 0;
  for (int half = 0; half < 12; ++half)
  {
    const double end = half % 2 == 0 ? amplitude : -amplitude;
    if (half == 1)
    {
      const double early = 0.0068; // isotropic, this would still be elastic
      rung.row("stress soon after the first turn, at strain 0.0068 [MPa]",
               steel.after(turn, early).stress, stress_at(early), within_percent(0.01));
    }
    turn = steel.after(turn, end);
    ours = stress_at(end);
    if (half < 4)
      rung.row("stress at the end of branch " + std::to_string(half + 1) + " [MPa]",
               turn.stress, ours, within_percent(0.01));
  }
  rung.row("stress amplitude of the stabilised loop [MPa]",
           steel.stabilised_stress(amplitude), std::abs(ours), within_percent(0.01));
  PulledBar<3> fine = element();
  fine.strain(amplitude, 60);
  fine.strain(-amplitude, 120);
  rung.row("energy error of a pull and push in 180 steps [-]", 0, fine.energy_error(),
           no_more(0.005));
  rung.note("The update integrates the law exactly while the direction of flow stays, so "
            "four steps a branch are enough for the stresses; the work sums need finer "
            "ones, because they go by trapezium over the kink of yielding.");
  tangent_rows<2>(rung);
  tangent_rows<3>(rung);
}
