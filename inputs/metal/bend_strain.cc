#include "inputs/metal/bend_strain.h"

#include "inputs/units/nominal_strain.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
BendStrain bend_strain(const double plunger_width, const double thickness)
{
  const double nominal =
      2 / std::sqrt(3.) * std::log1p(nominal_strain(plunger_width, thickness));
  return {nominal, 1.4 * nominal};
}

std::string backing_text(const TensionTest &test, const BendStrain &bend,
                         const BeyondNecking which)
{
  const std::string strains = fmt::format(
      "the bend strains its convex face to p = {:.2g} to {:.2g}, the test covers {:.3g}",
      bend.nominal, bend.largest, test.end.strain);
  if (bend.largest <= test.end.strain)
    return strains;
  const double p = std::max(bend.largest, test.end.strain);
  return fmt::format("{}: beyond it the flow stress is extrapolated. At p = {:.2g} "
                     "Swift's law gives {:.3g} MPa and Voce's {:.3g} MPa (+- {:.2g} %); "
                     "used: {}. Run the case with material.beyond_necking = swift and "
                     "with voce to see the effect on the force",
                     strains, p, test.beyond.swift.stress(p), test.beyond.voce.stress(p),
                     100 * test.beyond.spread(p),
                     which == BeyondNecking::mean    ? "half way between them"
                     : which == BeyondNecking::swift ? "Swift's"
                                                     : "Voce's");
}
} // namespace throughbend
