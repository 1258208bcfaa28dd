// Moment over curvature of an elastic, perfectly plastic strip at small strain, and the two
// stress levels that plane strain has.

#include "tests/verify/bent_strip.h"
#include "tests/verify/ladder.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;

namespace
{
constexpr double t = BentStrip::thickness, Y = 250;
const double     wide_yield = 2 / std::sqrt(3.) * Y;
// Ten times as stiff as steel, so that ten yield curvatures are still a small strain.
constexpr double young = 2e6;

double yield_bending(double poisson)
{
  return 2 * wide_yield * (1 - poisson * poisson) / young;
}
} // namespace

TEST_CASE("Elastic-plastic moment over curvature at small strain", "[verify]")
{
  Rung rung(
      "moment_curvature", "Elastic-plastic moment over curvature, plane strain",
      "Closed form of the bending of beams, e.g. Hill 1950, The Mathematical Theory of "
      "Plasticity, ch. IV: M/M_p = 1 - (kappa_e/kappa)^2/3; stress levels Y/sqrt(1 - "
      "nu + nu^2) at first yield and 2Y/sqrt 3 when sigma_z has relaxed to sigma_x/2, "
      "from the Mises condition; computed independently (elementary)");
  const struct
  {
    double curvature, moment;
  } published[] = {{1, 2. / 3}, {2, .9167}, {3, .9630}, {5, .9867}, {10, .9967}};

  const double full_moment = wide_yield * t * t / 4;
  for (const int layers : {4, 12})
  {
    BentStrip    strip({layers, 1, 2}, metal(young, 0.4999, perfectly_plastic(Y)));
    const double yielding = yield_bending(0.4999);
    const auto   mesh     = ", " + std::to_string(layers) + " layers";
    for (const auto &[curvature, moment] : published)
    {
      strip.bend(curvature * yielding, 10);
      rung.row("M/M_p at " + std::to_string(int(curvature)) + " yield curvatures" + mesh +
                   " [-]",
               moment, strip.moment() / full_moment, within_percent(layers == 4 ? 1 : 0.5));
    }
    rung.row("energy error" + mesh + " [-]", 0, strip.energy_error(), no_more(0.005));
  }

  // Plane strain with a real Poisson's ratio: the outermost point.
  constexpr double nu = 0.3;
  BentStrip        strip({8, 1, 2}, metal(young, nu, perfectly_plastic(Y)));
  struct Level
  {
    double along = 0, across_ratio = 0;
  };
  const auto outermost = [&]
  {
    double      deepest = 1e9;
    std::size_t point   = 0;
    const auto  places  = strip.body().places();
    for (std::size_t i = 0; i < places.size(); ++i)
      if (places[i][1] < deepest)
      {
        deepest = places[i][1];
        point   = i;
      }
    return point;
  }();
  const auto level = [&]
  {
    const Matrix3 &tau = strip.body().equilibrium().kirchhoff(outermost);
    return Level{tau[0][0], tau[2][2] / tau[0][0]};
  };
  const auto has_flowed = [&]
  {
    return strip.body()
               .equilibrium()
               .history()
               .accepted(outermost)
               .equivalent_plastic_strain > 0;
  };
  Level first, last;
  bool  overshoot = false;
  strip.bend(0.9 * yield_bending(nu), 5);
  REQUIRE_FALSE(has_flowed());
  strip.bend(1.2 * yield_bending(nu), 150,
             [&]
             {
               if (!has_flowed())
                 first = level();
             });
  REQUIRE(has_flowed());
  const auto look = [&]
  {
    overshoot = overshoot || level().along > 1.001 * wide_yield;
    last      = level();
  };
  strip.bend(5 * yield_bending(nu), 40, look);
  rung.row("M/M_p at 5 yield curvatures, nu 0.3 [-]", .9867, strip.moment() / full_moment,
           within_percent(0.5));
  strip.bend(10 * yield_bending(nu), 20, look);
  rung.row("M/M_p at 10 yield curvatures, nu 0.3 [-]", .9967, strip.moment() / full_moment,
           within_percent(0.5));
  rung.row("stress along / Y when the outermost point first yields, nu 0.3 [-]", 1.1251,
           first.along / Y, within_percent(0.5));
  rung.row("stress across / along there, then [-]", nu, first.across_ratio, within(0.002));
  rung.row("stress along / Y at ten yield curvatures [-]", 1.1547, last.along / Y,
           within_percent(0.2));
  rung.row("stress across / along there, then [-]", 0.5, last.across_ratio, within(0.01));
  CHECK_FALSE(overshoot);
  rung.note("E is 2000 GPa so that strains stay below 1 percent; nu 0.4999 in the first "
            "rows, where the closed form takes first yield at 2Y/sqrt 3 for granted. With "
            "four layers twelve points share the elastic core of a tenth of the thickness, "
            "hence 1 percent there.");
}
