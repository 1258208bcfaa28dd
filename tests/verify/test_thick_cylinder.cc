// A thick-walled cylinder under inner pressure: plastic boundary and pressure at small
// strain, and expansion to eight and a half times the bore.

#include "tests/support/body.h"
#include "tests/verify/ladder.h"

#include <deal.II/grid/grid_generator.h>
#include <deal.II/grid/grid_tools.h>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace throughbend;

namespace
{
constexpr double tiny = 1e-7, sector = 2 * 3.14159265358979323846 / 180;

/// A sector of two degrees, one cell wide; its curved faces are chords, in the same
/// proportion at every radius, and the inner one is moved outwards as a whole.
class Tube
{
public:
  Tube(double bore, double outer, int cells, const ZoneMaterial &metal)
      : bore_(bore),
        body_(
            shape(bore, outer, cells),
            [=](const dealii::Point<2> &node, unsigned component)
            { return is_inner(node, bore) || (component == 1 && node[1] < tiny); },
            metal,
            [=](const dealii::Point<2> &node, unsigned component, double out)
            { return is_inner(node, bore) ? out / bore * node[component] : 0.; })
  {
    const auto             &nodes = body_.model().nodes();
    std::map<unsigned, Tie> ties;
    for (unsigned i = 0; i < nodes.size(); ++i)
      if (body_.component(i) == 0 && !is_inner(nodes[i], bore) &&
          std::abs(nodes[i][1] * std::cos(sector) - nodes[i][0] * std::sin(sector)) < tiny)
      {
        ties[i]                         = {0, {{i, std::cos(sector)}}};
        ties[body_.dof_at(nodes[i], 1)] = {0, {{i, std::sin(sector)}}};
      }
    body_.guide(0, [ties](double) { return ties; });
  }

  void expand(double out, int steps) { body_.go(out, steps); }

  /// From the virtual work of an expansion, which the symmetry planes take no part in
  /// [MPa].
  double pressure() const
  {
    double power = 0;
    for (unsigned i = 0; i < body_.model().n_dofs(); ++i)
      if (is_inner(body_.model().nodes()[i], bore_))
        power += body_.forces()[i] * body_.model().nodes()[i][body_.component(i)] / bore_;
    return power / ((bore_ + body_.load()) * std::sin(sector));
  }

  /// Between the outermost point that has flowed and the next [mm].
  double plastic_radius() const
  {
    const auto places = body_.places();
    double     inside = 0, outside = 1e9;
    for (std::size_t i = 0; i < places.size(); ++i)
    {
      const bool flowed =
          body_.equilibrium().history().accepted(i).equivalent_plastic_strain > 0;
      if (flowed)
        inside = std::max(inside, places[i].norm());
      else
        outside = std::min(outside, places[i].norm());
    }
    return outside < 1e9 ? (inside + outside) / 2 : inside;
  }
  double energy_error() const { return body_.energy_error(); }

private:
  static dealii::Triangulation<2> shape(double bore, double outer, int cells)
  {
    dealii::Triangulation<2> mesh;
    dealii::GridGenerator::subdivided_hyper_rectangle(
        mesh, {static_cast<unsigned>(cells), 1u}, dealii::Point<2>(bore, 0),
        dealii::Point<2>(outer, sector));
    dealii::GridTools::transform(
        [](const dealii::Point<2> &p)
        { return dealii::Point<2>(p[0] * std::cos(p[1]), p[0] * std::sin(p[1])); },
        mesh);
    return mesh;
  }
  static bool is_inner(const dealii::Point<2> &node, double bore)
  {
    const double half = sector / 2;
    return node[0] * std::cos(half) + node[1] * std::sin(half) <
           bore * std::cos(half) + tiny;
  }

  double  bore_;
  Body<2> body_;
};
} // namespace

TEST_CASE("A thick cylinder yields from the bore outwards", "[verify]")
{
  Rung rung(
      "thick_cylinder",
      "Thick-walled cylinder, small strain: pressure over the plastic radius",
      "Hill 1950, The Mathematical Theory of Plasticity, ch. V; Prager & Hodge 1951 "
      "(formulas from memory): p = k (2 ln(c/a) + 1 - c^2/b^2), k = Y/sqrt 3, numbers "
      "computed independently; Y 250 MPa, a 100 mm, b 200 mm");
  constexpr double a = 100, b = 200, Y = 250, young = 2e7, nu = 0.4999;
  const double     k = Y / std::sqrt(3.), shear = young / (2 * (1 + nu));
  Tube             tube(a, b, 20, metal(young, nu, perfectly_plastic(Y)));
  const struct
  {
    double plastic, pressure;
  } published[] = {{100, 108.25}, {120, 145.01}, {140, 170.74},
                   {160, 187.64}, {180, 197.10}, {200, 200.09}};
  for (const auto &[c, p] : published)
  {
    // Elastic outside c, incompressible: radial displacement k c^2 / (2 G r) everywhere.
    tube.expand(k * c * c / (2 * shear * a), 5);
    const auto at = " at c = " + std::to_string(int(c)) + " mm";
    rung.row("pressure" + at + " [MPa]", p, tube.pressure(), within_percent(0.5));
    if (c > a && c < b)
      rung.row("plastic radius" + at + " [mm]", c, tube.plastic_radius(), within(2));
  }
  tube.expand(3 * k * b * b / (2 * shear * a), 20);
  rung.row("collapse pressure 2 k ln(b/a) [MPa]", 200.09, tube.pressure(),
           within_percent(0.5));
  rung.row("energy error [-]", 0, tube.energy_error(), no_more(0.005));
  rung.note(
      "The bore is moved, not the pressure prescribed, to u = k c^2/(2 G a) for each c. "
      "nu 0.4999, because the formula takes sigma_z for the mean of the other two; E "
      "100 times that of steel, so that strains stay small. The plastic radius is read "
      "between two quadrature points, which lie up to 2 mm apart.");
}

TEST_CASE("A thick cylinder is expanded to eight and a half times its bore", "[verify]")
{
  Rung rung(
      "cylinder_expansion", "Finite expansion of a thick-walled cylinder, 10 to 85 mm",
      "After Prager & Hodge 1951 (set-up and formula read in a public benchmark "
      "collection): sigma_rr(a) = (Y/sqrt 3) ln[(a/a0)^2 / ((b0/a0)^2 + (a/a0)^2 - 1)], "
      "rigid-plastic; a0 10, b0 20 mm, Y 0.5 MPa, G 3.8 GPa, K 40 GPa");
  constexpr double a0 = 10, b0 = 20, Y = 0.5;
  Tube             tube(a0, b0, 16, {3800, 40000, perfectly_plastic(Y)});
  const auto       published = [&](double a)
  {
    const double ratio = a * a / (a0 * a0);
    return -Y / std::sqrt(3.) * std::log(ratio / (b0 * b0 / (a0 * a0) + ratio - 1));
  };
  double from = a0;
  for (const double a : {11., 15., 20., 30., 50., 70., 85.})
  {
    tube.expand(a - a0, static_cast<int>(std::ceil((a - from) * 2)));
    from = a;
    rung.row("pressure at an inner radius of " + std::to_string(int(a)) + " mm [MPa]",
             published(a), tube.pressure(), within_percent(0.5));
  }
  rung.row("energy error [-]", 0, tube.energy_error(), no_more(0.005));
}
