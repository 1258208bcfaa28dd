#pragma once
// The coupon's metal: elastic constants, density, and the flow curve of the base plate.

#include "inputs/flow_curve.h"

namespace throughbend
{
struct Material
{
  double    young   = 0; ///< E [MPa]
  double    poisson = 0; ///< nu [-] in (0, 0.5)
  double    density = 0; ///< [kg/m^3], only for the ejection speed
  FlowCurve flow;        ///< base plate

  double shear_modulus() const { return young / (2 * (1 + poisson)); }    ///< G [MPa]
  double bulk_modulus() const { return young / (3 * (1 - 2 * poisson)); } ///< K [MPa]
};
} // namespace throughbend
