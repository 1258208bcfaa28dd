// Laws fitted to curves that others published:
// - necking of a round bar: Simo & Miehe (1992) Comput. Methods Appl. Mech. Eng. 98, 41:
//   450 MPa + 265 MPa (1 - exp(-16.93 p)) + 129.24 MPa p, E = 206.9 GPa; from memory;
// - deep-drawing steel and aluminium of the benchmark of NUMISHEET '93 (Makinouchi et al.,
//   eds.): 565.32 MPa (0.007117 + p)^0.2589 and 576.79 MPa (0.01658 + p)^0.3593; from
//   memory;
// - the tabulated aluminium of the catalogue (inputs/catalogue/materials.csv), measured.
// Records of tests are made up from the first three; noise, toe and machine are invented.

#include "inputs/keys/material_catalogue.h"
#include "inputs/metal/considere.h"
#include "inputs/metal/fit/law_fit.h"
#include "inputs/metal/tension_test.h"
#include "tests/support/flow_curves.h"

#include <catch2/catch.hpp>
#include <fmt/core.h>

#include <cmath>
#include <random>

using namespace throughbend;

namespace
{
FlowCurve swift(double strength, double prestrain, double exponent)
{
  FlowCurve curve = swift_hardening(strength, prestrain, exponent);
  curve.settle_yield();
  return curve;
}

/// The laws fitted to a pull of a bar well past its force maximum, read as a file.
LawFits refitted(const FlowCurve &flow, const double young, const double noise_size,
                 const double toe = 0)
{
  std::mt19937                     random(5);
  std::normal_distribution<double> noise(0, noise_size > 0 ? noise_size : 1);
  const auto                       disturbed = [&](double stress)
  { return stress + (noise_size > 0 ? noise(random) : 0); };
  std::string  text  = "engineering strain [-];engineering stress [MPa]\n";
  const double first = flow.initial_stress();
  for (int i = 0; i < 30; ++i)
    text += fmt::format("{:.8g};{:.8g}\n", toe + first * i / 30 / young,
                        disturbed(first * i / 30));
  const double to = 1.4 * considere(flow).strain;
  for (int i = 0; i <= 1500; ++i)
  {
    const double p = to * i / 1500, s = flow.stress(p), e = p + s / young;
    text +=
        fmt::format("{:.8g};{:.8g}\n", toe + std::expm1(e), disturbed(s * std::exp(-e)));
  }
  const TensionReading reading =
      read_tension_test(tension_file_of(text, "bar.csv"), young, "bar.csv");
  for (const std::string &fault : reading.faults)
    UNSCOPED_INFO(fault);
  REQUIRE(reading.test);
  std::vector<FlowPoint> points = reading.test->points;
  points.erase(points.begin());
  return fit_laws(points, reading.test->end.strain);
}
} // namespace

TEST_CASE("the fit finds the published laws again", "[unit][law_fit]")
{
  const LawFits bar = refitted(necking_steel(), 206900, 0);
  CHECK(bar.best().name == "voce, linear");
  CHECK(bar.best().curve.yield == Approx(450).epsilon(0.005));
  CHECK(bar.best().curve.saturation == Approx(265).epsilon(0.03));
  CHECK(bar.best().curve.rate == Approx(16.93).epsilon(0.03));
  CHECK(bar.best().curve.hardening == Approx(129.24).epsilon(0.15)); // rate takes its place
  for (const double p : {0.01, 0.05, 0.1, 0.2})
    CHECK(bar.best().curve.stress(p) == Approx(necking_steel().stress(p)).epsilon(0.002));

  struct Sheet
  {
    double strength, prestrain, exponent, young;
  };
  for (const Sheet &sheet :
       {Sheet{565.32, 0.007117, 0.2589, 206000}, Sheet{576.79, 0.01658, 0.3593, 71000}})
  {
    INFO(sheet.strength);
    const LawFits found =
        refitted(swift(sheet.strength, sheet.prestrain, sheet.exponent), sheet.young, 0);
    CHECK(found.best().name == "swift");
    CHECK(found.best().curve.strength == Approx(sheet.strength).epsilon(0.002));
    CHECK(found.best().curve.prestrain == Approx(sheet.prestrain).epsilon(0.03));
    CHECK(found.best().curve.exponent == Approx(sheet.exponent).epsilon(0.005));
  }
}

TEST_CASE("noise and toe leave the law what it is", "[unit][law_fit]")
{
  const FlowCurve steel = swift(565.32, 0.007117, 0.2589);
  const LawFits   found = refitted(steel, 206000, 1.5, 0.003);
  CHECK(found.best().curve.law == HardeningLaw::swift);
  CHECK(found.best().curve.strength == Approx(565.32).epsilon(0.01));
  CHECK(found.best().curve.exponent == Approx(0.2589).epsilon(0.03));
  for (const double p : {0.01, 0.05, 0.1, 0.2})
    CHECK(found.best().curve.stress(p) == Approx(steel.stress(p)).epsilon(0.005));
  CHECK_FALSE(found.best().patterned());
  // What cannot follow the curve shows a pattern.
  for (const LawFit &fit : found.fits)
    if (fit.name == "linear" || fit.name == "perfect")
      CHECK(fit.patterned());
}

TEST_CASE("the tabulated aluminium is followed by a law", "[unit][law_fit]")
{
  const std::vector<FlowPoint> points = grade("aluminium-tabulated").flow.points;
  const LawFits                found  = fit_laws(points, points.back().plastic_strain);
  CHECK(found.best().scatter < 0.01 * points.back().stress);
  for (const LawFit &fit : found.fits)
    CHECK(fit.residuals.size() == points.size());
}

TEST_CASE("the criterion prefers fewer numbers among equals", "[unit][law_fit]")
{
  // A straight line is followed by every law with a linear term; one needs two numbers.
  std::vector<FlowPoint> line;
  for (int i = 0; i <= 20; ++i)
    line.push_back({0.01 * i, 300 + 9. * i});
  const LawFits found = fit_laws(line, 0.2);
  CHECK(found.best().name == "linear");
  CHECK(found.best().curve.yield == Approx(300));
  CHECK(found.best().curve.hardening == Approx(900));
  std::vector<FlowPoint> flat;
  for (int i = 0; i <= 20; ++i)
    flat.push_back({0.01 * i, 345});
  CHECK(fit_laws(flat, 0.2).best().name == "perfect");
}

TEST_CASE("runs of signs by hand", "[unit][law_fit]")
{
  // Four above, four below, four runs: mean 1 + 2 4 4 / 8 = 5, variance 32 24 / (64 7).
  CHECK(runs_of({1, 1, -1, -1, 1, 1, -1, -1}) ==
        Approx(-1 / std::sqrt(32. * 24 / (64 * 7))));
  CHECK(runs_of({1, 1, 1, 1}) == 0);
  CHECK(runs_of({}) == 0);
}
