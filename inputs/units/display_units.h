#pragma once
// The units a person reads results in, and numbers written in them with a sensible number
// of digits: mm, kN, MPa, J, m/s or inch, kip, ksi, ft lbf, ft/s. For reading only;
// numbers that must be read back are written by inputs/units/units.

#include "inputs/units/units.h"

#include <string>

namespace throughbend
{
std::string length_text(double millimetres, UnitSystem units); ///< "71.3 mm", "2.807 in"
std::string fine_length_text(double millimetres, UnitSystem units); ///< "11.60 mm"
std::string force_text(double newtons, UnitSystem units); ///< "31.4 kN", "7.06 kip"
std::string force_rise_text(double newtons_per_millimetre, UnitSystem units);
std::string stress_text(double megapascals, UnitSystem units); ///< "250 MPa", "36.3 ksi"
std::string energy_text(double newton_millimetres, UnitSystem units); ///< "12.3 J"
std::string speed_text(double metres_per_second, UnitSystem units);   ///< "3.4 m/s"
std::string angle_text(double degrees);                               ///< "1.8 deg"
std::string percent_text(double share);                               ///< 0.213: "21.3 %"

/// With this many digits after the point; "unknown" for what is not a number; what rounds
/// to nothing has no sign.
std::string decimal_text(double value, int digits);
} // namespace throughbend
