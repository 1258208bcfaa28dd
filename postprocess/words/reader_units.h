#pragma once
// The two families of units side by side, for a page that both kinds of shop read: which
// comes first, numbers in both, and factors for charts. Digits are those of display_units.

#include "inputs/units/display_units.h"

#include <string>

namespace throughbend
{
/// What is written is the first family's text with the second's in brackets.
class ReaderUnits
{
public:
  explicit ReaderUnits(UnitSystem first) : first_(first) {}

  UnitSystem first() const { return first_; }
  UnitSystem second() const
  {
    return first_ == UnitSystem::metric ? UnitSystem::us : UnitSystem::metric;
  }

  /// Of a text of display_units.
  std::string both(double value, std::string (*text)(double, UnitSystem)) const;
  std::string length(double millimetres) const; ///< "40.0 mm (1.573 in)"
  std::string force(double newtons) const;      ///< "29.7 kN (6.68 kip)"

  /// One quantity on a chart: its unit's name and how many there are to the inside unit.
  struct Scale
  {
    std::string unit, other_unit;
    double      factor       = 1; ///< values of the first family per inside value
    double      other_factor = 1; ///< values of the second family per value of the first
  };
  Scale length_scale() const; ///< inside [mm]
  Scale force_scale() const;  ///< inside [N]
  Scale stress_scale() const; ///< inside [MPa]

private:
  Scale scale(const char *metric_unit, double metric_factor, const char *us_unit,
              double us_factor) const;

  UnitSystem first_;
};
} // namespace throughbend
