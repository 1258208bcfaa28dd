#include "inputs/metal/kinematic_hardening.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
KinematicHardening KinematicHardening::scaled(double factor) const
{
  return {saturation * factor, rate};
}

FlowState KinematicHardening::monotonic(double p) const
{
  const double decay = std::exp(-rate * p);
  return {saturation * (1 - decay), modulus() * decay};
}

FlowState KinematicHardening::isotropic_part(const FlowCurve &curve, double p) const
{
  const FlowState whole = curve.at(p), shifted = monotonic(p);
  return {whole.stress - shifted.stress, whole.slope - shifted.slope};
}

double KinematicHardening::least_isotropic_part(const FlowCurve &curve) const
{
  // Beyond 20 / rate the backstress has saturated and the curve does not fall.
  constexpr int points = 400;
  double        least  = curve.initial_stress();
  for (int i = 1; i <= points && rate > 0; ++i)
    least = std::min(least, isotropic_part(curve, 20 / rate * i / points).stress);
  return least;
}
} // namespace throughbend
