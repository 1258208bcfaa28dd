#include "inputs/units/shop_fraction.h"

#include "inputs/units/display_units.h"
#include "inputs/units/exact_units.h"

#include <cmath>

namespace throughbend
{
namespace
{
constexpr long parts = 32; // of an inch; finer ones would name any length

std::string without_idle_zeros(std::string digits)
{
  if (digits.find('.') == std::string::npos)
    return digits;
  while (digits.back() == '0')
    digits.pop_back();
  if (digits.back() == '.')
    digits.pop_back();
  return digits;
}
} // namespace

std::optional<std::string> fraction_text(const double millimetres)
{
  const double in_parts = std::abs(millimetres) / mm_per_inch * parts;
  if (!(in_parts < 1e6))
    return std::nullopt;
  const long count = std::lround(in_parts);
  if (count == 0 && millimetres != 0)
    return std::nullopt; // thin, but not nothing
  if (std::abs(in_parts - static_cast<double>(count)) / parts * mm_per_inch >
      fraction_slack)
    return std::nullopt;
  long above = count % parts;
  long below = parts;
  while (above > 0 && above % 2 == 0)
  {
    above /= 2;
    below /= 2;
  }
  const long  whole = count / parts;
  std::string text  = millimetres < 0 && count > 0 ? "-" : "";
  if (above == 0)
    text += std::to_string(whole);
  else
    text += (whole > 0 ? std::to_string(whole) + "-" : "") + std::to_string(above) + "/" +
            std::to_string(below);
  return text + " in";
}

std::string inch_text(const double millimetres)
{
  if (const auto fraction = fraction_text(millimetres))
    return *fraction;
  const double inches = millimetres / mm_per_inch;
  return without_idle_zeros(decimal_text(inches, std::abs(inches) < 0.01 ? 4 : 3)) + " in";
}

std::string millimetre_text(const double millimetres)
{
  // So that 60.325 is rounded one way, however it was added up.
  return without_idle_zeros(
             decimal_text(millimetres + std::copysign(1e-9, millimetres), 2)) +
         " mm";
}

std::string both_text(const double millimetres, const UnitSystem first)
{
  return first == UnitSystem::us
             ? inch_text(millimetres) + " (" + millimetre_text(millimetres) + ")"
             : millimetre_text(millimetres) + " (" + inch_text(millimetres) + ")";
}

UnitSystem likely_system(const double millimetres)
{
  return fraction_text(millimetres) ? UnitSystem::us : UnitSystem::metric;
}
} // namespace throughbend
