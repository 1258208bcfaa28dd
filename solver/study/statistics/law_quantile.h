#pragma once
// Quantiles of the laws by which keys scatter.

#include "inputs/case/scatter_law.h"

namespace throughbend
{
/// The value below which a share u in (0, 1) of all lies, limits included: of the law cut
/// at its limits that is F^-1(F(low) + u (F(high) - F(low))). In the law's unit.
double quantile(const ScatterLaw &law, double u);
} // namespace throughbend
