// A bar pulled past its largest load, tension in plane strain, simple shear, and a body
// that is only turned: uniform states with closed forms.

#include "tests/support/pulled_bar.h"
#include "tests/verify/ladder.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

using namespace throughbend;

namespace
{
constexpr double tiny = 1e-9;

/// Zero of a falling function.
template <typename Function>
double zero(double low, double high, Function falling)
{
  for (int i = 0; i < 100; ++i)
  {
    const double middle                = (low + high) / 2;
    (falling(middle) > 0 ? low : high) = middle;
  }
  return low;
}

/// Top of the parabola through the largest value and its neighbours.
double top(const std::vector<double> &values)
{
  const auto   at = std::max_element(values.begin() + 1, values.end() - 1);
  const double a = at[-1], b = at[0], c = at[1];
  return b - (c - a) * (c - a) / (8 * (a - 2 * b + c));
}
} // namespace

TEST_CASE("A bar is pulled past its largest load", "[verify]")
{
  Rung rung(
      "uniaxial", "Uniaxial tension past the Considere load, 3D",
      "Considere 1885; closed form F = A0 s(p) exp(-(p + s/E)) for logarithmic strain "
      "and a flow curve in Kirchhoff stress, numbers computed independently; flow curve "
      "and bar of Simo & Hughes 1998, Computational Inelasticity, necking of a round "
      "bar (parameters read)");
  constexpr double length = 26.667, area = 129.20, young = 206900, nu = 0.29;
  const double     side  = std::sqrt(area) / 2;
  const FlowCurve  steel = necking_steel();
  PulledBar<3>     body({length, side, side}, {2, 1, 1}, metal(young, nu, steel));
  const auto       force_at = [&](double p)
  { return area * steel.stress(p) * std::exp(-(p + steel.stress(p) / young)); };

  const struct
  {
    double p, force, elongation;
  } published[] = {{.01, 62.86, .332}, {.05, 74.48, 1.450}, {.10, 79.14, 2.902}};
  for (const auto &[p, force, elongation] : published)
  {
    body.go(elongation, 15);
    const auto at =
        " at half elongation " + std::to_string(elongation).substr(0, 5) + " mm";
    const double s = steel.stress(p);
    rung.row("force" + at + " [kN]", force, 4 * body.end_force() / 1000,
             within_percent(0.1));
    rung.row("equivalent plastic strain" + at + " [-]", p, body.plastic_strain(),
             within(5e-5));
    rung.row("volume / volume before" + at + " [-]", std::exp((1 - 2 * nu) * s / young),
             body.equilibrium().dilatation(0), within(1e-6));
  }
  std::vector<double> forces;
  body.go(6, 60, [&] { forces.push_back(4 * body.end_force() / 1000); });
  const double at_peak =
      zero(0.01, 1, [&](double p) { return force_at(p + 1e-6) - force_at(p - 1e-6); });
  rung.row("largest force [kN]", force_at(at_peak) / 1000, top(forces),
           within_percent(0.02));
  rung.row("force at half elongation 6 mm, past the largest [kN]",
           force_at(zero(0.1, 0.5,
                         [&](double p) {
                           return 6 - length * std::expm1(p + steel.stress(p) / young);
                         })) /
               1000,
           4 * body.end_force() / 1000, within_percent(0.02));
  rung.row("energy error [-]", 0, body.energy_error(), no_more(0.005));
  rung.note(
      "The program's flow curve is in Kirchhoff stress: then F is exact, lateral "
      "contraction included, because the first Piola stress is tau / stretch. The elastic "
      "volume change is J = exp((1 - 2 nu) s/E); read as Cauchy stress the same curve "
      "would give a force larger by just J, 0.14 percent at p = 0.1.");
}

TEST_CASE("A wide bar in plane strain yields at 1.125 Y and flows at 1.155 Y", "[verify]")
{
  Rung rung(
      "plane_strain_tension", "Tension in plane strain",
      "Mises condition with no strain across: first yield Y/sqrt(1 - nu + nu^2), later "
      "2Y/sqrt 3 (e.g. Hill 1950); largest load by Considere's condition with s = "
      "(2/sqrt 3) s(p), strain (sqrt 3/2) p; computed independently");
  constexpr double length = 20, half = 5;
  {
    constexpr double young = 200000, nu = 0.3, Y = 250;
    PulledBar<2>     body({length, half}, {2, 1}, metal(young, nu, perfectly_plastic(Y)));
    const double     yielding =
        length * Y * (1 - nu * nu) / (young * std::sqrt(1 - nu + nu * nu));
    body.go(0.99 * yielding, 5);
    CHECK(body.plastic_strain() == 0);
    double last = 0;
    body.go(1.01 * yielding, 20,
            [&]
            {
              if (body.plastic_strain() == 0)
                last = body.equilibrium().kirchhoff(0)[0][0];
            });
    CHECK(body.plastic_strain() > 0);
    rung.row("stress / Y at first yield [-]", 1.1251, last / Y, within_percent(0.15));
    body.go(10 * yielding, 40);
    rung.row("stress / Y at ten times the yield strain [-]", 1.1547,
             body.equilibrium().kirchhoff(0)[0][0] / Y, within_percent(0.1));
    rung.row("stress across / along, then [-]", 0.5,
             body.equilibrium().kirchhoff(0)[2][2] / body.equilibrium().kirchhoff(0)[0][0],
             within(0.005));
    rung.row("energy error, perfectly plastic [-]", 0, body.energy_error(), no_more(0.005));
  }
  constexpr double young = 206900, nu = 0.29;
  const FlowCurve  steel = necking_steel();
  PulledBar<2>     body({length, half}, {2, 1}, metal(young, nu, steel));
  const double     wide = 2 / std::sqrt(3.);
  // Elastic strains along and, half of it, across: what is elastic across is plastic
  // backwards, and stays so once sigma_z has relaxed.
  const auto strain_at = [&](double p)
  { return p / wide + wide * steel.stress(p) / young * (1 - nu / 2 + (0.5 - nu) / 2); };
  const auto force_at = [&](double p)
  { return half * wide * steel.stress(p) * std::exp(-strain_at(p)); };
  for (const double p : {0.02, 0.1})
  {
    body.strain(strain_at(p), 25);
    rung.row("force per mm at p = " + std::to_string(p).substr(0, 4) + " [N/mm]",
             force_at(p), body.end_force(), within_percent(0.1));
  }
  const double at_peak =
      zero(0.01, 1, [&](double p) { return force_at(p + 1e-6) - force_at(p - 1e-6); });
  std::vector<double> forces;
  body.go(length * std::expm1(strain_at(at_peak + 0.05)), 40,
          [&] { forces.push_back(body.end_force()); });
  rung.row("largest force per mm [N/mm]", force_at(at_peak), top(forces),
           within_percent(0.1));
  rung.row("energy error, hardening [-]", 0, body.energy_error(), no_more(0.005));
}

TEST_CASE("In simple shear without hardening the stress stays at Y / sqrt 3", "[verify]")
{
  Rung rung(
      "simple_shear", "Simple shear, perfectly plastic, up to a shear of 4",
      "Mises condition tau = Y/sqrt 3; that rate forms may oscillate is shown by Lee, "
      "Mallett & Wertheimer 1983, J. Appl. Mech. 50, 554 (from memory)");
  constexpr double young = 200000, Y = 250, height = 10;
  // Plates above and below move; the free ends of a long strip would disturb, so every node
  // of the surface follows the shear and one cell's middle is free.
  Body<2> body(
      block<2>({2, 2}, {height, height}),
      [=](const dealii::Point<2> &node, unsigned)
      {
        return node[0] < tiny || node[0] > height - tiny || node[1] < tiny ||
               node[1] > height - tiny;
      },
      metal(young, 0.3, perfectly_plastic(Y)),
      [](const dealii::Point<2> &node, unsigned component, double shear)
      { return component == 0 ? shear * node[1] : 0.; });
  double     least = 1e9, most = 0;
  const auto look = [&]
  {
    const double tau = body.equilibrium().kirchhoff(0)[0][1];
    least            = std::min(least, tau);
    most             = std::max(most, tau);
  };
  body.go(0.01, 10);
  for (const double shear : {0.5, 1., 2., 4.})
  {
    body.go(shear, static_cast<int>(100 * shear), look);
    rung.row(
        "shear stress / Y at a shear of " + std::to_string(shear).substr(0, 3) + " [-]",
        1 / std::sqrt(3.), body.equilibrium().kirchhoff(0)[0][1] / Y, within_percent(0.1));
  }
  rung.row("largest - least shear stress from a shear of 0.01 on, / Y [-]", 0,
           (most - least) / Y, no_more(0.001));
  rung.row("energy error [-]", 0, body.energy_error(), no_more(0.005));
}

TEMPLATE_TEST_CASE_SIG("A body that is only turned stays free of stress", "[verify]",
                       ((int dim), dim), 2, 3)
{
  const std::string  model = dim == 2 ? "rotation_2d" : "rotation_3d";
  Rung               rung(model, "Rigid rotation by 360 degrees in 72 steps",
                          "Objectivity: a rotation alone gives neither stress nor flow");
  constexpr double   size = 10, turn = 2 * 3.14159265358979323846;
  dealii::Point<dim> corner;
  for (unsigned k = 0; k < dim; ++k)
    corner[k] = size;
  // One side is led, the rest has to follow.
  Body<dim> body(
      block<dim>(std::vector<unsigned>(dim, dim == 2 ? 2u : 1u), corner),
      [](const dealii::Point<dim> &node, unsigned) { return node[0] < tiny; },
      metal(210000, 0.3, perfectly_plastic(250)),
      [](const dealii::Point<dim> &node, unsigned component, double share)
      {
        const double c = std::cos(share * turn), s = std::sin(share * turn);
        return component == 0   ? c * node[0] - s * node[1] - node[0]
               : component == 1 ? s * node[0] + c * node[1] - node[1]
                                : 0.;
      });
  const std::size_t points = body.model().cells().size() * body.model().n_points_per_cell();
  double            stress = 0;
  body.go(1, 72,
          [&]
          {
            for (std::size_t i = 0; i < points; ++i)
              for (const auto &row : body.equilibrium().kirchhoff(i))
                for (const double entry : row)
                  stress = std::max(stress, std::abs(entry));
          });
  double away = 0;
  for (const double u : body.displacement())
    away = std::max(away, std::abs(u));
  rung.row("largest stress component on the way [MPa]", 0, stress, no_more(1e-6));
  rung.row("plastic strain after the turn [-]", 0, body.largest_plastic_strain(),
           no_more());
  rung.row("distance of any node from where it was, after the turn [mm]", 0, away,
           no_more(1e-8));
}
