#pragma once
// The share of the hardening that shifts the yield surface instead of widening it: the
// saturating backstress of Armstrong & Frederick. The flow curve stays what a tension test
// shows; this only says how much of its rise is taken back on reversal. Knows no tensor.

#include "inputs/metal/flow_curve.h"

namespace throughbend
{
/// Armstrong & Frederick (1966) CEGB report RD/B/N731; Lemaitre & Chaboche (1990) Mechanics
/// of Solid Materials, sec. 5.4.4, there with C = saturation rate and gamma = rate:
/// dX = 2/3 C de_p - gamma X dp, so X = saturation (1 - exp(-rate p)) in a first pull.
struct KinematicHardening
{
  double saturation = 0; ///< backstress in the end [MPa]; 0 = none
  double rate       = 0; ///< how fast it saturates with plastic strain [-]

  bool   present() const { return saturation > 0; }
  double modulus() const { return saturation * rate; } ///< C, its first slope [MPa]

  KinematicHardening scaled(double factor) const; ///< every stress times factor [-] > 0

  /// Backstress after a first pull to plastic strain p [MPa], and its slope.
  FlowState monotonic(double p) const;

  /// What is left of the curve for the yield surface's size, and its slope, which may be
  /// negative: curve minus monotonic().
  FlowState isotropic_part(const FlowCurve &curve, double p) const;

  /// Smallest size of the yield surface over all strains [MPa], on a fine raster.
  double least_isotropic_part(const FlowCurve &curve) const;
};
} // namespace throughbend
