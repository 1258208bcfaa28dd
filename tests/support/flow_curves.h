#pragma once
// Flow curves that tests build: one maker for each law, and the metals that several tests
// share. What a curve means is in inputs/metal/flow_curve.h.

#include "inputs/metal/flow_curve.h"

#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
/// s = yield [MPa].
inline FlowCurve perfectly_plastic(double yield)
{
  FlowCurve curve;
  curve.yield = yield;
  return curve;
}

/// s = yield + hardening p [MPa].
inline FlowCurve linear_hardening(double yield, double hardening)
{
  FlowCurve curve;
  curve.law       = HardeningLaw::linear;
  curve.yield     = yield;
  curve.hardening = hardening;
  return curve;
}

/// s = yield + saturation (1 - exp(-rate p)) + hardening p [MPa]; rate [-].
inline FlowCurve voce_hardening(double yield, double saturation, double rate,
                                double hardening = 0)
{
  FlowCurve curve;
  curve.law        = HardeningLaw::voce;
  curve.yield      = yield;
  curve.saturation = saturation;
  curve.rate       = rate;
  curve.hardening  = hardening;
  return curve;
}

/// s = strength (prestrain + p)^exponent [MPa]. `yield` is left to settle_yield().
inline FlowCurve swift_hardening(double strength, double prestrain, double exponent)
{
  FlowCurve curve;
  curve.law       = HardeningLaw::swift;
  curve.strength  = strength;
  curve.prestrain = prestrain;
  curve.exponent  = exponent;
  return curve;
}

/// s = yield + strength p^exponent [MPa].
inline FlowCurve ludwik_hardening(double yield, double strength, double exponent)
{
  FlowCurve curve;
  curve.law      = HardeningLaw::ludwik;
  curve.yield    = yield;
  curve.strength = strength;
  curve.exponent = exponent;
  return curve;
}

/// Straight lines between points of plastic strain [-] and stress [MPa].
inline FlowCurve tabulated(std::vector<FlowPoint> points)
{
  FlowCurve curve;
  curve.law    = HardeningLaw::table;
  curve.points = std::move(points);
  return curve;
}

/// A formula and its constants as a case has them, "s0:250 MPa, n:0.2".
inline FlowCurve formula_hardening(const std::string &expression,
                                   const std::string &constants)
{
  FlowCurve curve;
  curve.law                = HardeningLaw::formula;
  curve.formula.expression = expression;
  curve.formula.constants  = read_formula_constants(constants).constants;
  tabulate(curve.formula);
  return curve;
}

/// The plate of reference case R (invented).
inline FlowCurve reference_plate()
{
  return voce_hardening(250, 200, 12, 150);
}

/// Necking of a round bar: Simo & Hughes (1998), Computational Inelasticity, and before it
/// Simo & Miehe (1992), Comput. Methods Appl. Mech. Eng. 98, 41; used by Simo & Armero
/// (1992), too. E 206.9 GPa, nu 0.29.
inline FlowCurve necking_steel()
{
  return voce_hardening(450, 265, 16.93, 129.24);
}

/// A hot-rolled mild steel: 700 (0.00412 + p)^0.1875 MPa, 250 MPa at first yield; the metal
/// of the independent fibre beam. E 200 GPa, nu 0.3.
inline FlowCurve mild_steel()
{
  return swift_hardening(700, 0.00412, 0.1875);
}
} // namespace throughbend
