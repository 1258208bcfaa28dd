#include "inputs/units/display_units.h"

#include "inputs/units/exact_units.h"

#include <fmt/core.h>

#include <array>
#include <cmath>
#include <string_view>

namespace throughbend
{
namespace
{
/// About three significant digits, without an exponent.
std::string three_digits(const double value)
{
  const double size = std::abs(value);
  return decimal_text(value, size >= 99.95    ? 0
                             : size >= 9.995  ? 1
                             : size >= 0.9995 ? 2
                                              : 3);
}
} // namespace

std::string decimal_text(const double value, const int digits)
{
  if (!std::isfinite(value))
    return "unknown";
  const std::string text = fmt::format("{:.{}f}", value, digits);
  return text.find_first_of("123456789") == text.npos && text[0] == '-' ? text.substr(1)
                                                                        : text;
}

std::string length_text(const double millimetres, const UnitSystem units)
{
  return units == UnitSystem::us ? decimal_text(millimetres / mm_per_inch, 3) + " in"
                                 : decimal_text(millimetres, 1) + " mm";
}

std::string fine_length_text(const double millimetres, const UnitSystem units)
{
  return units == UnitSystem::us ? length_text(millimetres, units)
                                 : decimal_text(millimetres, 2) + " mm";
}

std::string force_text(const double newtons, const UnitSystem units)
{
  return units == UnitSystem::us ? three_digits(newtons / n_per_kip) + " kip"
                                 : three_digits(newtons / 1000) + " kN";
}

std::string force_rise_text(const double newtons_per_millimetre, const UnitSystem units)
{
  return units == UnitSystem::us
             ? three_digits(newtons_per_millimetre * mm_per_inch / n_per_kip) +
                   " kip per in"
             : three_digits(newtons_per_millimetre / 1000) + " kN per mm";
}

std::string stress_text(const double megapascals, const UnitSystem units)
{
  return units == UnitSystem::us ? three_digits(megapascals / mpa_per_ksi) + " ksi"
                                 : three_digits(megapascals) + " MPa";
}

std::string energy_text(const double newton_millimetres, const UnitSystem units)
{
  return units == UnitSystem::us
             ? three_digits(newton_millimetres / (mm_per_foot * n_per_pound)) + " ft lbf"
             : three_digits(newton_millimetres / 1000) + " J";
}

std::string speed_text(const double metres_per_second, const UnitSystem units)
{
  return units == UnitSystem::us
             ? three_digits(metres_per_second * 1000 / mm_per_foot) + " ft/s"
             : three_digits(metres_per_second) + " m/s";
}

std::string angle_text(const double degrees)
{
  return decimal_text(degrees, 1) + " deg";
}

std::string percent_text(const double share)
{
  return decimal_text(100 * share, 1) + " %";
}
} // namespace throughbend
