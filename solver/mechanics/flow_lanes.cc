#include "solver/mechanics/flow_lanes.h"

#include <limits>

namespace throughbend
{
namespace
{
bool has_formula(const FlowCurve &curve)
{
  return curve.law == HardeningLaw::perfect || curve.law == HardeningLaw::linear ||
         curve.law == HardeningLaw::voce || curve.law == HardeningLaw::swift;
}

/// Lane l of the formula's numbers.
void put(FormulaLanes &f, const int l, const FlowCurve &curve)
{
  const bool saturates = curve.law == HardeningLaw::voce;
  const bool linear    = curve.law == HardeningLaw::linear || saturates;
  const bool power     = curve.law == HardeningLaw::swift;

  f.base[l]       = power ? 0. : curve.yield;
  f.saturation[l] = saturates ? curve.saturation : 0.;
  f.rate[l]       = saturates ? curve.rate : 0.;
  f.hardening[l]  = linear ? curve.hardening : 0.;
  f.strength[l]   = power ? curve.strength : 0.;
  f.prestrain[l]  = power ? curve.prestrain : 1.;
  f.exponent[l]   = power ? curve.exponent : 1.;

  constexpr double never = std::numeric_limits<double>::infinity();
  f.last[l] = curve.extrapolation == Extrapolation::formula ? never : curve.last_strain;
  const FlowState last = curve.at(curve.last_strain);
  f.last_stress[l]     = last.stress;
  f.last_slope[l]      = curve.extrapolation == Extrapolation::flat ? 0. : last.slope;
}
} // namespace

FlowLanes flow_lanes(const PointMaterial *const (&materials)[n_lanes])
{
  FlowLanes flow;
  for (int l = 0; l < n_lanes; ++l)
  {
    const PointMaterial &material = *materials[l];
    const FlowCurve     &first = material.first_flow(), &second = material.second_flow();
    flow.material[l] = &material;
    flow.share[l]    = material.share();
    flow.has_second |= material.share() > 0;
    for (const FlowCurve *const curve : {&first, &second})
    {
      flow.by_formula &= has_formula(*curve);
      flow.has_decay |= curve->law == HardeningLaw::voce;
      flow.has_power |= curve->law == HardeningLaw::swift;
    }
    put(flow.first, l, first);
    put(flow.second, l, second);
  }
  return flow;
}

void flow_of_each(const FlowLanes &flow, const LaneArray &p, LaneArray &stress,
                  LaneArray &slope)
{
  for (int l = 0; l < n_lanes; ++l)
  {
    const FlowState state = flow.material[l]->flow(p[l]);
    stress[l]             = state.stress;
    slope[l]              = state.slope;
  }
}
} // namespace throughbend
