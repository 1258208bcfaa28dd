#pragma once
// How a flow curve may go on beyond the last strain that a tension test backs: Swift's law
// and Voce's, both through the last point with the slope there, so that only one number of
// each is left to be found from the test. Swift's never stops rising and Voce's levels out;
// what metals do lies between them as a rule (common practice). How far the two are apart
// says how little is known there.

#include "inputs/metal/flow_curve.h"
#include "inputs/metal/material.h"

#include <vector>

namespace throughbend
{
/// Where a test ends: the flow curve and its slope.
struct CurveEnd
{
  double strain = 0; ///< plastic [-]
  double stress = 0; ///< true [MPa]
  double slope  = 0; ///< [MPa]; at the force maximum it is the stress (Considere)
};

struct NeckingCurves
{
  FlowCurve swift, voce;

  double stress(BeyondNecking which, double p) const; ///< [MPa]
  /// Half the distance of the two over their mean [-].
  double spread(double p) const;
};

/// Both laws, each closest by least squares to the points from a fifth of the last strain
/// on.
NeckingCurves necking_curves(const std::vector<FlowPoint> &points, const CurveEnd &end);

/// The points, and behind them those of one of the laws, straight lines between which keep
/// within 0.1 % of it, up to p = 1.
std::vector<FlowPoint> continued(const std::vector<FlowPoint> &points,
                                 const NeckingCurves &curves, const CurveEnd &end,
                                 BeyondNecking which);

/// So few of the points that straight lines between them keep within a share of the stress.
std::vector<FlowPoint> thinned(const std::vector<FlowPoint> &points, double share);
} // namespace throughbend
