#pragma once
// What a point of one metal is made of, from the constants that tables of metals have.

#include "solver/mechanics/point_material.h"
#include "tests/support/flow_curves.h"

namespace throughbend
{
/// E [MPa], nu [-]. Without `kinematic` all hardening is isotropic.
inline ZoneMaterial metal(double young, double poisson, const FlowCurve &flow,
                          const KinematicHardening &kinematic = {})
{
  return {young / (2 * (1 + poisson)), young / (3 * (1 - 2 * poisson)), flow, kinematic};
}
} // namespace throughbend
