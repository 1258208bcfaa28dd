#pragma once
// The coupon's metal: elastic constants, density, the flow curve of the base plate, and
// what only screening asks for.

#include "inputs/metal/flow_curve.h"
#include "inputs/metal/kinematic_hardening.h"

#include <string>

namespace throughbend
{
/// How a measured curve goes on beyond the force maximum of its tension test.
enum class BeyondNecking
{
  mean, ///< half way between the two
  swift,
  voce
};

struct Material
{
  double             young   = 0;      ///< E [MPa]
  double             poisson = 0;      ///< nu [-] in (0, 0.5)
  double             density = 0;      ///< [kg/m^3], only for the ejection speed
  FlowCurve          flow;             ///< base plate
  KinematicHardening kinematic;        ///< share of that curve's rise; base plate
  double             elongation   = 0; ///< at fracture in a tension test [-]; 0 = not known
  double             limit_strain = 0; ///< largest local log strain [-]; 0 = not known
  double             tensile_strength = 0; ///< engineering [MPa]
  std::string        grade;     ///< row of a catalogue it came from; empty = none
  std::string        catalogue; ///< user's own file with such rows; empty = none
  std::string        curve;     ///< file of a tension test; empty = none
  BeyondNecking      beyond_necking = BeyondNecking::mean; ///< only with a curve

  double shear_modulus() const { return young / (2 * (1 + poisson)); }    ///< G [MPa]
  double bulk_modulus() const { return young / (3 * (1 - 2 * poisson)); } ///< K [MPa]
};
} // namespace throughbend
