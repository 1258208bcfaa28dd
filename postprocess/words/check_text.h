#pragma once
// A screening as a person reads it: short aligned lines with verdict, figure, band and the
// number that decides; the force along the travel; the rule it was compared with; below,
// each formula, what only a simulation answers, and the caution.

#include "inputs/units/units.h"
#include "solver/screening/screening.h"

#include <string>

namespace throughbend
{
enum class FormulaTokens
{
  names,
  sources ///< and limits
};

/// Rows of at most 100 columns.
std::string check_text(const Screening &screening, UnitSystem units,
                       FormulaTokens words = FormulaTokens::names);

/// A figure in the units of a family: `1.60 mm`, `7/16 in`, `29.4 kN`, `20.0 %`.
std::string figure_text(double value, Measure measure, UnitSystem units);
} // namespace throughbend
