#pragma once
// Quantities with a unit, from the text a shop writes and back to text. Inside, everything
// is N, mm, MPa, s (and kg/m^3, rad, N mm); this is the only place that knows other units.
// It knows no keys, ranges or files, and it throws nothing: a bad text comes back with the
// cure.

#include <string>
#include <string_view>

namespace throughbend
{
/// What a number measures, and with that which units it may carry.
enum class UnitKind
{
  length,  ///< inside [mm]
  force,   ///< inside [N]
  stress,  ///< inside [MPa]
  angle,   ///< inside [rad]
  ratio,   ///< strains, coefficients, rates: a plain number or per cent [-]
  count,   ///< a whole number without unit
  density, ///< inside [kg/m^3]
  time,    ///< inside [s]
  energy   ///< inside [N mm]
};

/// The family of units in which numbers are shown.
enum class UnitSystem
{
  metric, ///< mm, kN, MPa
  us      ///< inch, kip, ksi
};

/// A number that was read, or the reason why it could not be.
struct Quantity
{
  double      value = 0; ///< in the inside unit of its kind; only good without an error
  std::string error;     ///< what is wrong and the cure; empty if the value is good
  std::string note;      ///< said to the user where a unit name has more than one meaning
  UnitSystem  system = UnitSystem::metric; ///< family of the unit that was typed

  bool ok() const { return error.empty(); }
};

/// Reads `9.5 mm`, `3/8 in`, `1-1/2in`, `1 1/2"`, `50 ksi`, `12 %`. Dimensional kinds must
/// carry a unit.
Quantity read_quantity(std::string_view text, UnitKind kind);

/// Six significant digits with the unit of the family, for people.
std::string to_text(double value, UnitKind kind, UnitSystem system);

/// Metric, with as many digits as it takes to read back the very same number.
std::string exact_text(double value, UnitKind kind);

/// The units a kind may carry, as a list for messages.
std::string allowed_units(UnitKind kind);

/// The kind's name, for messages and help.
std::string to_text(UnitKind kind);
} // namespace throughbend
