#pragma once
// Lengths as a shop reads them off a rule: inches in fractions where the length is one, in
// decimals where it is not, and millimetres. For people; nothing here is read back by a
// case.

#include "inputs/units/units.h"

#include <optional>
#include <string>

namespace throughbend
{
/// How far a length may be from a fraction that still names it [mm].
constexpr double fraction_slack = 0.02;

/// `1-1/2 in` if the length [mm] is a multiple of 1/32 in to within the slack.
std::optional<std::string> fraction_text(double millimetres);

/// `1-1/2 in`, else `2.126 in`.
std::string inch_text(double millimetres);

/// `38.1 mm`: at most two digits after the point, no idle zeros.
std::string millimetre_text(double millimetres);

/// `1-1/2 in (38.1 mm)` or `38.1 mm (1-1/2 in)`, the given family in front.
std::string both_text(double millimetres, UnitSystem first);

/// The family that a length was most likely measured in: US if it is a shop fraction.
UnitSystem likely_system(double millimetres);
} // namespace throughbend
