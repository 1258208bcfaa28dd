// Laws as published: Voce (1948), Swift (1952), Ludwik (1909); see
// inputs/metal/flow_curve.h. Values beside them are worked out by hand from the formulas,
// parameters are invented.

#include "tests/support/flow_curves.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <utility>
#include <vector>

using namespace throughbend;

namespace
{
FlowCurve perfect()
{
  return perfectly_plastic(345);
}
FlowCurve linear()
{
  return linear_hardening(300, 900);
}
FlowCurve voce()
{
  return voce_hardening(250, 200, 12, 150);
}
FlowCurve swift()
{
  return swift_hardening(700, 0.01, 0.2);
}
FlowCurve ludwik()
{
  return ludwik_hardening(260, 500, 0.4);
}
FlowCurve table()
{
  return tabulated({{0, 250}, {0.02, 300}, {0.1, 380}, {0.3, 440}});
}
/// The curve of voce() as a formula.
FlowCurve formula()
{
  return formula_hardening("s0 + q*(1-exp(-b*p)) + h*p",
                           "s0:250 MPa, q:200 MPa, b:12, h:150 MPa");
}

std::vector<FlowCurve> all_laws()
{
  return {perfect(), linear(), voce(), swift(), ludwik(), table(), formula()};
}

/// Integral of the stress by Simpson's rule in panels that shrink towards p = 0, where
/// Ludwik's curve is steep.
double area_by_simpson(const FlowCurve &curve, double from, double to, int panels)
{
  const auto place = [&](double part) { return from + (to - from) * part * part * part; };
  double     area  = 0;
  for (int i = 0; i < panels; ++i)
  {
    const double a = place(static_cast<double>(i) / panels);
    const double b = place(static_cast<double>(i + 1) / panels);
    area +=
        (b - a) / 6 * (curve.stress(a) + 4 * curve.stress((a + b) / 2) + curve.stress(b));
  }
  return area;
}
} // namespace

TEST_CASE("each law gives the stress of its formula", "[unit][flow_curve]")
{
  CHECK(perfect().stress(0.3) == 345);
  CHECK(linear().stress(0.1) == Approx(390));
  // 250 + 200 (1 - exp(-1.2)) + 15, exp(-1.2) = 0.3011942119
  CHECK(voce().stress(0.1) == Approx(404.76115762).epsilon(1e-10));
  // 700 (0.32)^0.2 = 700 x 32^0.2 / 100^0.2 = 1400 / 2.5118864315
  CHECK(swift().stress(0.31) == Approx(557.35003874).epsilon(1e-9));
  // 260 + 500 (1/32)^0.4 = 260 + 500 / 4
  CHECK(ludwik().stress(1. / 32) == Approx(385).epsilon(1e-14));
  CHECK(table().stress(0.06) == Approx(340));
  CHECK(table().stress(0.1) == Approx(380));
}

TEST_CASE("each curve begins at its yield stress", "[unit][flow_curve]")
{
  CHECK(perfect().initial_stress() == 345);
  CHECK(linear().initial_stress() == 300);
  CHECK(voce().initial_stress() == 250);
  CHECK(swift().initial_stress() == Approx(700 * std::pow(0.01, 0.2)));
  CHECK(ludwik().initial_stress() == 260);
  CHECK(table().initial_stress() == 250);
}

TEST_CASE("the slope is the difference quotient of the stress", "[unit][flow_curve]")
{
  for (FlowCurve curve : all_laws())
    for (const Extrapolation rule :
         {Extrapolation::formula, Extrapolation::hold_slope, Extrapolation::flat})
    {
      curve.last_strain   = 0.25;
      curve.extrapolation = rule;
      // None of these strains is a corner of the table or the end of the backed strains.
      for (const double p : {3e-6, 1e-3, 0.015, 0.05, 0.17, 0.26, 0.5, 2.})
      {
        INFO(to_text(curve.law) << " at p = " << p);
        const double h        = 1e-5 * p;
        const double quotient = (curve.stress(p + h) - curve.stress(p - h)) / (2 * h);
        CHECK(curve.slope(p) == Approx(quotient).epsilon(1e-6).margin(1e-4));
        CHECK(curve.slope(p) >= 0);
        CHECK(curve.at(p).stress == curve.stress(p));
        CHECK(curve.at(p).slope == curve.slope(p));
      }
    }
}

TEST_CASE("the work is the area under the stress", "[unit][flow_curve]")
{
  for (FlowCurve curve : all_laws())
    for (const Extrapolation rule :
         {Extrapolation::formula, Extrapolation::hold_slope, Extrapolation::flat})
    {
      curve.last_strain   = 0.25;
      curve.extrapolation = rule;
      for (const double p : {1e-4, 0.013, 0.1, 0.25, 0.8})
      {
        INFO(to_text(curve.law) << " at p = " << p);
        CHECK(curve.work(p) ==
              Approx(area_by_simpson(curve, 0, p, 4000)).epsilon(2e-7).margin(1e-12));
      }
      CHECK(curve.work(0) == 0);
    }
}

TEST_CASE("beyond the last backed strain the stated rule holds", "[unit][flow_curve]")
{
  for (FlowCurve curve : all_laws())
  {
    INFO(to_text(curve.law));
    curve.last_strain       = 0.2;
    const FlowState at_end  = curve.at(0.2);
    const FlowCurve formula = curve;
    curve.extrapolation     = Extrapolation::hold_slope;
    CHECK(curve.stress(0.5) == Approx(at_end.stress + 0.3 * at_end.slope));
    CHECK(curve.slope(0.5) == Approx(at_end.slope));
    curve.extrapolation = Extrapolation::flat;
    CHECK(curve.stress(0.5) == Approx(at_end.stress));
    CHECK(curve.slope(0.5) == 0);
    // Below it, the rule changes nothing.
    CHECK(curve.stress(0.19) == formula.stress(0.19));
  }
}

TEST_CASE("a table goes on with its last slope unless told otherwise", "[unit][flow_curve]")
{
  FlowCurve curve = table(); // last piece: 60 MPa over 0.2
  CHECK(curve.stress(0.5) == Approx(440 + 0.2 * 300));
  curve.last_strain   = 0.3;
  curve.extrapolation = Extrapolation::flat;
  CHECK(curve.stress(0.5) == Approx(440));
  // At a corner of the table the backed slope is that of the piece before it: 80 over 0.08.
  curve.last_strain   = 0.1;
  curve.extrapolation = Extrapolation::hold_slope;
  CHECK(curve.stress(0.2) == Approx(380 + 0.1 * 1000));
}

TEST_CASE("Ludwik's infinite slope at the start is capped without a jump in stress",
          "[unit][flow_curve]")
{
  const FlowCurve curve = ludwik();
  CHECK(std::isfinite(curve.slope(0)));
  CHECK(curve.slope(0) > 1e5);
  CHECK(curve.stress(1e-9 * (1 - 1e-9)) == Approx(curve.stress(1e-9)).epsilon(1e-9));
  CHECK(curve.stress(0.5e-9) ==
        Approx(curve.stress(0) + 0.5e-9 * curve.slope(0)).epsilon(1e-14));
}

TEST_CASE("a negative strain is taken as none", "[unit][flow_curve]")
{
  for (const FlowCurve &curve : all_laws())
  {
    CHECK(curve.stress(-0.1) == curve.initial_stress());
    CHECK(curve.work(-0.1) == 0);
  }
}

TEST_CASE("a scaled curve has every stress, slope and work times the factor",
          "[unit][flow_curve]")
{
  for (FlowCurve curve : all_laws())
  {
    curve.last_strain      = 0.2;
    curve.extrapolation    = Extrapolation::hold_slope;
    const FlowCurve scaled = curve.scaled(0.8);
    for (const double p : {0., 0.01, 0.15, 0.4})
    {
      INFO(to_text(curve.law) << " at p = " << p);
      CHECK(scaled.stress(p) == Approx(0.8 * curve.stress(p)));
      CHECK(scaled.slope(p) == Approx(0.8 * curve.slope(p)).margin(1e-12));
      CHECK(scaled.work(p) == Approx(0.8 * curve.work(p)).margin(1e-12));
    }
  }
}
