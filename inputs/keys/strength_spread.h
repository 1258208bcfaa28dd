#pragma once
// How far the strength of real plate differs from what a case says, from a table with a
// source on every row: mean and coefficient of variation over the least value of the
// standard. A plate's own certificate takes precedence.

#include "inputs/case/scatter_law.h"
#include "inputs/catalogue/rule_cells.h"
#include "inputs/metal/material.h"

#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
struct StrengthSpread
{
  std::string standard;       ///< empty: any
  RangeCell   least_yield;    ///< of the standard [MPa]; no limits: any
  double      mean_ratio = 1; ///< mean over the least value [-]
  double      cov        = 0; ///< standard deviation over mean [-]
  std::string source;
  HowNotes    how;
  std::string place;
};

struct StrengthSpreadReading
{
  std::vector<StrengthSpread> rows;
  std::vector<std::string>    faults; ///< a line each
};
StrengthSpreadReading read_strength_spreads(std::string_view text, const std::string &name);

const std::vector<StrengthSpread> &built_in_strength_spreads();

/// The law of a strength [MPa] of the metal, and where it is from. A metal that is the
/// least its standard asks for is stronger in the mean; any other scatters about its own.
struct StrengthLaw
{
  ScatterLaw  law;
  std::string source;
};
StrengthLaw strength_law(const Material &material, double own_strength);
} // namespace throughbend
