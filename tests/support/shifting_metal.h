#pragma once
// A metal all of whose hardening is kinematic, in pull and push along one axis: the closed
// form that the updates and the element are held to. Armstrong & Frederick (1966), CEGB
// report RD/B/N731; branches and stabilised loop: Lemaitre & Chaboche (1990), sec. 5.4.4.

#include "tests/support/metals.h"

#include <cmath>

namespace throughbend
{
/// The end of a branch: axial stress [MPa], plastic strain [-], backstress [MPa].
struct LoopPoint
{
  double stress = 0, plastic_strain = 0, backstress = 0;
};

/// The yield surface keeps its size and shifts by up to `saturation`.
struct ShiftingMetal
{
  double young = 0, poisson = 0; ///< E [MPa], nu [-]
  double yield      = 0;         ///< [MPa]
  double saturation = 0;         ///< of the backstress, C / gamma [MPa]
  double rate       = 0;         ///< gamma [-]

  ZoneMaterial material() const
  {
    return metal(young, poisson, voce_hardening(yield, saturation, rate),
                 {saturation, rate});
  }

  /// The branch from `start` to total log strain e, with v the sign of its direction:
  /// stress = v yield + X, X = v saturation + (X_start - v saturation)
  /// exp(-v rate (e_p - start)), stress = young (e - e_p).
  LoopPoint after(const LoopPoint &start, double e) const
  {
    const double v       = e > start.plastic_strain + start.stress / young ? 1 : -1;
    const auto   shifted = [&](double plastic)
    {
      return v * saturation + (start.backstress - v * saturation) *
                                  std::exp(-v * rate * (plastic - start.plastic_strain));
    };
    double low = start.plastic_strain, high = start.plastic_strain;
    (v > 0 ? high : low) += v * 0.1;
    for (int i = 0; i < 200; ++i)
    {
      const double middle = (low + high) / 2;
      // v yield + X(e_p) - E (e - e_p) rises with e_p.
      (v * yield + shifted(middle) < young * (e - middle) ? low : high) = middle;
    }
    return {young * (e - low), low, shifted(low)};
  }

  /// Stress amplitude [MPa] of the stabilised loop between strains of -amplitude and
  /// amplitude: the fixed point of stress = yield + saturation tanh(rate range / 2),
  /// `range` the loop's plastic strain.
  double stabilised_stress(double amplitude) const
  {
    double stress = yield + saturation;
    for (int i = 0; i < 200; ++i)
      stress = yield + saturation * std::tanh(rate * (amplitude - stress / young));
    return stress;
  }
};
} // namespace throughbend
