#pragma once
// The flow curves of four points at once. Where all of them follow formulas the numbers of
// these are laid out side by side; any other curve is asked lane by lane.

#include "solver/mechanics/lanes.h"
#include "solver/mechanics/point_material.h"

namespace throughbend
{
/// Perfect, linear, Voce's and Swift's laws are cases of
///   s(p) = base + saturation (1 - exp(-rate p)) + hardening p + strength (prestrain +
///   p)^n,
/// with a straight line beyond `last`.
struct FormulaLanes
{
  LaneArray base, saturation, rate, hardening; ///< [MPa], [-], [MPa]
  LaneArray strength, prestrain, exponent;     ///< [MPa], [-], [-]
  LaneArray last, last_stress, last_slope;     ///< [-], [MPa], [MPa]
};

/// Of four points; those of one lane may be mixed of two zones.
struct FlowLanes
{
  alignas(32) FormulaLanes first;
  alignas(32) FormulaLanes second;
  alignas(32) LaneArray share; ///< of the second [-]

  bool by_formula = true; ///< all lanes are
  bool has_decay = false, has_power = false, has_second = false;

  const PointMaterial *material[n_lanes] = {};
};

/// Refers to the materials, which must outlive it.
FlowLanes flow_lanes(const PointMaterial *const (&materials)[n_lanes]);

/// Stress [MPa] and slope [MPa] of four points.
struct FlowStateLanes
{
  Lanes stress, slope;
};

/// One point after the other.
void flow_of_each(const FlowLanes &flow, const LaneArray &p, LaneArray &stress,
                  LaneArray &slope);

THROUGHBEND_INLINED Lanes loaded(const LaneArray &x)
{
  return Lanes{x[0], x[1], x[2], x[3]};
}

THROUGHBEND_INLINED FlowStateLanes formula_at(const FormulaLanes &f, Lanes p,
                                              bool has_decay, bool has_power)
{
  const Lanes none   = all_lanes(0);
  Lanes       stress = loaded(f.base) + loaded(f.hardening) * p;
  Lanes       slope  = loaded(f.hardening);
  if (has_decay)
  {
    const Lanes decay = exponential(-loaded(f.rate) * p);
    stress += loaded(f.saturation) * (1. - decay);
    slope += loaded(f.saturation) * loaded(f.rate) * decay;
  }
  if (has_power)
  {
    const Lanes strain = loaded(f.prestrain) + p, n = loaded(f.exponent);
    const Lanes power = loaded(f.strength) * exponential(n * logarithm(strain));
    stress += power;
    slope += n * power / strain;
  }
  slope                  = slope > none ? slope : none;
  const Lanes    last    = loaded(f.last);
  const Lanes    at_last = loaded(f.last_slope);
  const LaneMask beyond  = p > last;
  return {beyond ? loaded(f.last_stress) + at_last * (p - last) : stress,
          beyond ? at_last : slope};
}

/// At equivalent plastic strains p >= 0 [-].
THROUGHBEND_INLINED FlowStateLanes flow_at(const FlowLanes &flow, Lanes p)
{
  if (!flow.by_formula)
  {
    LaneArray at, stress, slope;
    for (int l = 0; l < n_lanes; ++l)
      at[l] = p[l];
    flow_of_each(flow, at, stress, slope);
    return {loaded(stress), loaded(slope)};
  }
  FlowStateLanes state = formula_at(flow.first, p, flow.has_decay, flow.has_power);
  if (flow.has_second)
  {
    const FlowStateLanes other = formula_at(flow.second, p, flow.has_decay, flow.has_power);
    state.stress += loaded(flow.share) * (other.stress - state.stress);
    state.slope += loaded(flow.share) * (other.slope - state.slope);
  }
  return state;
}
} // namespace throughbend
