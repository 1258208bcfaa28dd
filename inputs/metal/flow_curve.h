#pragma once
// The flow stress of an isotropically hardening metal as a function of the equivalent
// plastic strain: plain numbers plus the formula. Knows nothing of zones, elements or
// units at the door; everything here is MPa and dimensionless strain.

#include "inputs/metal/flow_formula.h"

#include <string>
#include <vector>

namespace throughbend
{
enum class HardeningLaw
{
  perfect, ///< s = yield
  linear,  ///< s = yield + hardening p
  voce,    ///< s = yield + saturation (1 - exp(-rate p)) + hardening p
  swift,   ///< s = strength (prestrain + p)^exponent
  ludwik,  ///< s = yield + strength p^exponent
  table,   ///< straight lines between points (p, s)
  formula  ///< an expression of the user's in p
};

/// How the curve goes on beyond the last strain that a test backs.
enum class Extrapolation
{
  formula,    ///< the law itself goes on (a table: its last slope goes on)
  hold_slope, ///< a straight line with the slope at the last backed strain
  flat        ///< constant stress
};

/// One point of a tabulated flow curve.
struct FlowPoint
{
  double plastic_strain = 0; ///< equivalent plastic strain [-]
  double stress         = 0; ///< true stress [MPa]
};

/// Flow stress s(p), p = equivalent plastic strain [-], s in MPa.
/// Sources: Voce (1948) J. Inst. Metals 74, 537; Swift (1952) J. Mech. Phys. Solids 1, 1;
/// Ludwik (1909) Elemente der technologischen Mechanik.
struct FlowCurve
{
  HardeningLaw law        = HardeningLaw::perfect;
  double       yield      = 0;    ///< initial flow stress [MPa]; swift derives it
  double       hardening  = 0;    ///< linear hardening modulus [MPa], linear and voce
  double       saturation = 0;    ///< saturation increment [MPa], voce
  double       rate       = 0;    ///< saturation rate [-], voce
  double       strength   = 0;    ///< strength coefficient [MPa], swift and ludwik
  double       prestrain  = 0;    ///< strain offset [-] > 0, swift
  double       exponent   = 0;    ///< hardening exponent [-] in (0, 1], swift and ludwik
  std::vector<FlowPoint> points;  ///< table, strains ascending from 0
  FlowFormula            formula; ///< formula
  double                 last_strain   = 1.0; ///< last strain backed by a test [-]
  Extrapolation          extrapolation = Extrapolation::formula;

  FlowState at(double p) const;          ///< s and ds/dp in one go; p < 0 is taken as 0
  double    initial_stress() const;      ///< s(0) [MPa]
  double    stress(double p) const;      ///< s(p) [MPa]; p < 0 is taken as 0
  double    slope(double p) const;       ///< ds/dp [MPa], never negative
  double    work(double p) const;        ///< integral of s from 0 to p [N mm/mm^3]
  FlowCurve scaled(double factor) const; ///< every stress times factor [-] > 0
  /// Puts s(0) into `yield` where the law has no yield of its own (swift, table, formula).
  void settle_yield();
};

std::string to_text(HardeningLaw law);
} // namespace throughbend
