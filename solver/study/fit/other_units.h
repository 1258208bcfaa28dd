#pragma once
// Units that may have been meant in place of those in the head of a table of readings.

#include "solver/study/fit/fit_search.h"

#include <vector>

namespace throughbend
{
/// Each with what the readings would have to be multiplied by, and the words that name
/// the slip: kgf, tonnes, N or pounds for kN; psi for bar; inches for mm; the
/// radius of the piston for its diameter. Factors from inputs/units/units.
std::vector<OtherUnit> other_units(const ShopReadings &readings);
} // namespace throughbend
