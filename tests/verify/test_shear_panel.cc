// A tapered panel in plane strain under end shear with finite plasticity: convergence of
// the tip displacement, from a second element too.

#include "tests/verify/ladder.h"
#include "tests/verify/plain_element.h"
#include "tests/verify/shear_panel.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace throughbend;

namespace
{
const char *const source =
    "Problem of Simo & Armero 1992, Int. J. Numer. Methods Eng. 33, 1413 (\"Cook's "
    "membrane\", plane strain, J2; parameters read in a public benchmark collection). No "
    "published tip displacement is used: the finest mesh stands for it, and a plain "
    "displacement element, which can only be too stiff, closes in from below";

constexpr double traction = 312.5;

template <typename Forces>
double tip(int cells, int steps)
{
  ShearPanel<Forces> panel(cells, cells, metal(206900, 0.29, necking_steel()));
  panel.pull(traction, steps);
  return panel.tip();
}

std::string squared(int cells)
{
  return std::to_string(cells) + " x " + std::to_string(cells) + " cells";
}

/// Rows for a series of meshes, each twice as fine as the one before.
void run(Rung &rung, int finest, int steps)
{
  std::vector<double> tips;
  for (int cells = 2; cells <= finest; cells *= 2)
  {
    ShearPanel<> panel(cells, cells, metal(206900, 0.29, necking_steel()));
    panel.pull(traction, steps);
    tips.push_back(panel.tip());
    rung.row("energy error, " + squared(cells) + " [-]", 0, panel.body().energy_error(),
             no_more(0.005));
  }
  const std::size_t n    = tips.size();
  const double      sign = tips[1] > tips[0] ? 1 : -1;
  for (std::size_t i = 0; i + 1 < n; ++i)
  {
    rung.row("tip displacement, " + squared(2 << i) + ", against the finest mesh [mm]",
             tips.back(), tips[i], within_percent(i + 2 == n ? 0.5 : 6));
    rung.row("step to the next mesh in the direction of the first, " + squared(2 << i) +
                 " [mm]",
             0, sign * (tips[i + 1] - tips[i]), no_less());
    if (i > 0)
      rung.row("that step / the one before, " + squared(2 << i) + " [-]", 1,
               (tips[i + 1] - tips[i]) / (tips[i] - tips[i - 1]), no_more());
  }
  const double plain = tip<PlainElement<2>>(finest, steps);
  const auto   mesh  = squared(finest) + " [mm]";
  rung.row("tip displacement of the plain element, " + mesh, tips.back(), plain,
           within_percent(1));
  rung.row("that of the plain element from below, " + mesh, tips.back(), plain, no_more());
  rung.row("distance from the plain element / that on the mesh half as fine [-]", 0.5,
           (tips[n - 1] - plain) / (tips[n - 2] - tip<PlainElement<2>>(finest / 2, steps)),
           no_more(0.05));
  rung.note(
      "The two last meshes must agree within 0.5 percent; coarser ones only show the way, "
      "within 6 percent. The plain element is stiffer "
      "and comes from below, hence 1 percent, and its distance must halve.");
}
} // namespace

TEST_CASE("The tip of a shear panel converges", "[verify]")
{
  Rung rung("shear_panel", "Plane-strain panel under end shear, finite J2 plasticity",
            source);
  run(rung, 32, 10);
}

TEST_CASE("The tip of a shear panel converges in finer steps", "[.][verify-long]")
{
  Rung rung("shear_panel_long",
            "Plane-strain panel under end shear, finite J2 plasticity, 30 steps", source,
            Length::long_);
  run(rung, 32, 30);
  rung.row("tip displacement, 10 steps against 30, 16 x 16 cells [mm]",
           tip<Equilibrium<2>>(16, 30), tip<Equilibrium<2>>(16, 10), within_percent(0.3));
}
