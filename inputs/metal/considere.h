#pragma once
// Tensile strength of a flow curve: the largest force per original area in a tension test,
// where the bar begins to neck. Elastic strain is left out; nothing is said about fracture.

#include "inputs/metal/flow_curve.h"

namespace throughbend
{
struct TensileStrength
{
  double stress = 0; ///< largest engineering stress [MPa]
  double strain = 0; ///< logarithmic plastic strain there [-]
};

/// Maximum of s(p) exp(-p), where ds/dp = s: Considere (1885) Annales des Ponts et
/// Chaussees 9, 574. Looked for up to p = 1, which no metal of a bend test reaches.
TensileStrength considere(const FlowCurve &curve);
} // namespace throughbend
