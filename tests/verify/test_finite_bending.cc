// Finite plane-strain bending of a strip between plane ends: rigid-plastic limit by Hill,
// elastic-plastic by an integration over the thickness made apart from this code.

#include "tests/verify/bent_strip.h"
#include "tests/verify/ladder.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>
#include <vector>

using namespace throughbend;

namespace
{
constexpr double Y = 250, t = BentStrip::thickness;
const double     full_moment = 2 / std::sqrt(3.) * Y * t * t / 4;
const double     not_given   = std::nan("");

struct Published
{
  double bending, inner_radius, thickness, outer_log, inner_log, moment, offset, radial;
};

/// Elastic, with hardening modulus H [MPa].
struct Strip
{
  double                 young, hardening;
  std::vector<Published> rows;
};

const std::vector<Strip> table = {
    {200000,
     0,
     {{.1, 9.5127, .99880, .0499, -.0500, .9974, -.0125, -.0570},
      {.2, 4.5187, .99661, .0981, -.1012, .9930, -.0250, -.1136},
      {.3, 2.8547, .99444, .1439, -.1550, .9887, -.038, -.1703},
      {.4, 2.0233, .99228, .1875, -.2116, .9844, -.048, -.2274},
      {.5, 1.5249, .99012, .2291, -.2712, .9801, -.061, -.2851}}},
    {2000000, 0, {{.4, 2.0081, .99732, .1841, -.2191, .994, not_given, not_given}}},
    {200000,
     1000,
     {{.2, 4.5202, .99635, .0983, -.1009, 1.2902, -.028, -.139},
      {.4, 2.0320, .98943, .1894, -.2073, 1.5638, -.066, -.329}}},
    {200000,
     2000,
     {{.2, 4.5211, .99617, .0985, -.1007, 1.5843, -.030, -.165},
      {.4, 2.0369, .98783, .1905, -.2049, 2.1338, -.074, -.429}}}};

struct Bounds
{
  double moment; ///< [%]
  double strain, thickness;
};

std::string plain(double value)
{
  std::string text = std::to_string(value);
  text.erase(text.find_last_not_of('0') + 1);
  return text;
}

/// What each of the table's strips comes to on a mesh.
void compare(Rung &rung, const StripMesh &mesh, const Bounds &bounds)
{
  for (const Strip &metal_of : table)
  {
    BentStrip strip(mesh,
                    metal(metal_of.young, 0.4999, linear_hardening(Y, metal_of.hardening)));
    for (const Published &row : metal_of.rows)
    {
      strip.bend(row.bending,
                 static_cast<int>(std::lround(200 * (row.bending - strip.bending()))));
      const auto at = ", E " + std::to_string(int(metal_of.young / 1000)) + " GPa, H " +
                      std::to_string(int(metal_of.hardening)) + " MPa, k t0 " +
                      plain(row.bending);
      rung.row("moment / M_p" + at + " [-]", row.moment, strip.moment() / full_moment,
               within_percent(bounds.moment));
      rung.row("log strain outside" + at + " [-]", row.outer_log, strip.outer_log(),
               within(bounds.strain));
      rung.row("log strain inside" + at + " [-]", row.inner_log, strip.inner_log(),
               within(bounds.strain));
      rung.row("thickness / t0" + at + " [-]", row.thickness, strip.thinned(),
               within(bounds.thickness));
      rung.row("inner radius / t0" + at + " [-]", row.inner_radius,
               strip.inner_radius() / t, within_percent(100 * bounds.strain));
      if (!std::isnan(row.offset))
      {
        rung.row("neutral layer from the middle / t0" + at + " [-]", row.offset,
                 strip.neutral_offset(), within(0.1 / mesh.layers));
        rung.row("radial stress at the neutral layer / Y" + at + " [-]", row.radial,
                 strip.least_radial() / Y, within(0.25 / mesh.layers));
        rung.row("radial stress at the worst quadrature point / Y" + at + " [-]",
                 row.radial, strip.least_radial_at_points() / Y, within(0.4));
      }
    }
    rung.row("largest spread of the plastic strain along the strip, E " +
                 std::to_string(int(metal_of.young / 1000)) + " GPa, H " +
                 std::to_string(int(metal_of.hardening)) + " MPa [-]",
             0, strip.spread_along(), no_more(0.01));
    rung.row("energy error, E " + std::to_string(int(metal_of.young / 1000)) + " GPa, H " +
                 std::to_string(int(metal_of.hardening)) + " MPa [-]",
             0, strip.energy_error(), no_more(0.005));
  }
}

const char *const source =
    "Hill 1950, The Mathematical Theory of Plasticity, ch. XI (rigid-plastic limit); "
    "elastic-plastic values computed independently by integration of incompressible rings "
    "over the thickness, twice: before this project's code, and again for this rung";
} // namespace

TEST_CASE("A strip bent plastically follows the finite bending solution", "[verify]")
{
  Rung rung("finite_bending", "Finite plane-strain bending, thirty-two layers", source);
  compare(rung, {32, 1, 0.75}, {0.5, 0.002, 0.001});
  rung.note(
      "Y 250 MPa, nu 0.4999 because the reference is incompressible. The neutral layer "
      "is read between quadrature points, the radial stress from the balance of the "
      "rings on either side of the neutral layer's cell.");
  rung.note(
      "The radial stress at single quadrature points of that one cell is off by up to "
      "0.4 Y: the mean stress jumps by 2Y/sqrt 3 inside it, and a linear dilatation "
      "cannot jump.");
}

TEST_CASE("A strip as coarse as in a pass follows the finite bending solution", "[verify]")
{
  Rung rung("finite_bending_coarse", "Finite plane-strain bending, six layers as in a pass",
            source);
  compare(rung, {6, 1, 2}, {1.5, 0.011, 0.007});
  rung.note(
      "Tolerances are wider than on the fine mesh because the neutral layer falls "
      "somewhere inside one of six cells: where it does, mean stress and reversed flow are "
      "smeared over that cell, and moment and thickness swing about the solution as it "
      "wanders from cell to cell. The rung locking has the series over the layers.");
}

TEST_CASE("The rigid-plastic limit of bending is approached", "[verify]")
{
  Rung rung(
      "rigid_bending", "Finite bending of a nearly rigid, perfectly plastic strip",
      "Hill 1950, The Mathematical Theory of Plasticity, ch. XI: M = M_p, thickness "
      "unchanged, neutral layer at sqrt(ab), unstretched layer in the middle (from memory, "
      "derivation repeated)");
  double before[3] = {1, 1, 1};
  for (const double young : {2e5, 2e6, 2e7})
  {
    BentStrip strip({24, 1, 1}, metal(young, 0.4999, perfectly_plastic(Y)));
    strip.bend(0.4, 80);
    const double miss[3] = {std::abs(strip.moment() / full_moment - 1),
                            std::abs(strip.thinned() - 1),
                            std::abs(strip.outer_log() - std::log(1.2))};
    const auto   at      = ", E " + std::to_string(int(young / 1000)) + " GPa [-]";
    rung.row("distance of the moment from M_p" + at, before[0], miss[0], no_more());
    rung.row("thinning" + at, before[1], miss[1], no_more());
    rung.row("distance of the outer log strain from ln 1.2" + at, before[2], miss[2],
             no_more());
    std::copy(std::begin(miss), std::end(miss), std::begin(before));
  }
  rung.note(
      "Each row's bound is the value one row of the same kind before: the distances fall "
      "as E rises, about as sqrt(Y/E).");
}
