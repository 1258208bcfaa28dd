#include "inputs/units/units.h"

#include "inputs/text/plain_text.h"
#include "inputs/units/shop_number.h"

#include <fmt/core.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <vector>

namespace throughbend
{
namespace
{
/// value inside = number * multiply / divide. Both are whole numbers wherever the unit is
/// exact, and the result is rounded to a double once, so that 3/8 in is the very double of
/// 9.525 mm, and 9.5 um or 12 % come out as they are written.
struct Unit
{
  UnitKind         kind;
  std::string_view name;
  long double      multiply;
  long double      divide;
  UnitSystem       system;
  bool             listed; ///< false: another spelling of a listed unit
};

// Exact definitions: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, standard gravity 9.80665 m/s^2
// (NIST Special Publication 811, 2008 edition, Appendix B; International Yard and Pound
// Agreement of 1959). All US units follow from these three.
constexpr long double inch        = 254;               // tenths of a mm
constexpr long double pound       = 45359237;          // 1e-8 kg
constexpr long double gravity     = 980665;            // 1e-5 m/s^2
constexpr long double pound_force = pound * gravity;   // 1e-13 N
constexpr long double newton      = 1e13L;             // in those
constexpr long double psi         = pound_force * 100; // over square tenths of a mm
constexpr long double square_inch = inch * inch;
constexpr long double cubic_inch  = inch * inch * inch;
constexpr long double pi          = 3.14159265358979323846L;

constexpr auto metric = UnitSystem::metric;
constexpr auto us     = UnitSystem::us;

constexpr std::array<Unit, 64> units{{
    {UnitKind::length, "mm", 1, 1, metric, true},
    {UnitKind::length, "cm", 10, 1, metric, true},
    {UnitKind::length, "m", 1000, 1, metric, true},
    {UnitKind::length, "um", 1, 1000, metric, true},
    {UnitKind::length, "\xC2\xB5m", 1, 1000, metric, false},
    {UnitKind::length, "\xCE\xBCm", 1, 1000, metric, false},
    {UnitKind::length, "in", inch, 10, us, true},
    {UnitKind::length, "inch", inch, 10, us, false},
    {UnitKind::length, "inches", inch, 10, us, false},
    {UnitKind::length, "\xE2\x80\xB3", inch, 10, us, false}, // double prime
    {UnitKind::length, "\xE2\x80\x9D", inch, 10, us, false}, // closing curly quote
    {UnitKind::length, "\"", inch, 10, us, true},
    {UnitKind::length, "ft", 12 * inch, 10, us, true},
    {UnitKind::force, "N", 1, 1, metric, true},
    {UnitKind::force, "kN", 1000, 1, metric, true},
    {UnitKind::force, "MN", 1e6, 1, metric, true},
    {UnitKind::force, "kgf", gravity, 1e5L, metric, true},
    {UnitKind::force, "lbf", pound_force, newton, us, true},
    {UnitKind::force, "kip", 1000 * pound_force, newton, us, true},
    {UnitKind::force, "kips", 1000 * pound_force, newton, us, false},
    {UnitKind::force, "short-tonf", 2000 * pound_force, newton, us, true},
    {UnitKind::force, "long-tonf", 2240 * pound_force, newton, us, true},
    {UnitKind::force, "metric-tonf", 1000 * gravity, 1e5L, metric, true},
    {UnitKind::force, "tf", 1000 * gravity, 1e5L, metric, false},
    {UnitKind::force, "tonf", 2000 * pound_force, newton, us, true},
    {UnitKind::stress, "MPa", 1, 1, metric, true},
    {UnitKind::stress, "N/mm^2", 1, 1, metric, true},
    {UnitKind::stress, "N/mm2", 1, 1, metric, false},
    {UnitKind::stress, "N/mm\xC2\xB2", 1, 1, metric, false},
    {UnitKind::stress, "GPa", 1000, 1, metric, true},
    {UnitKind::stress, "kPa", 1, 1000, metric, true},
    {UnitKind::stress, "Pa", 1, 1e6, metric, true},
    {UnitKind::stress, "bar", 1, 10, metric, true},
    {UnitKind::stress, "psi", psi, newton *square_inch, us, true},
    {UnitKind::stress, "ksi", 1000 * psi, newton *square_inch, us, true},
    {UnitKind::angle, "deg", pi, 180, metric, true},
    {UnitKind::angle, "\xC2\xB0", pi, 180, metric, false},
    {UnitKind::angle, "rad", 1, 1, metric, true},
    {UnitKind::ratio, "", 1, 1, metric, false},
    {UnitKind::ratio, "%", 1, 100, metric, true},
    {UnitKind::count, "", 1, 1, metric, false},
    {UnitKind::density, "kg/m^3", 1, 1, metric, true},
    {UnitKind::density, "kg/m3", 1, 1, metric, false},
    {UnitKind::density, "kg/m\xC2\xB3", 1, 1, metric, false},
    {UnitKind::density, "g/cm^3", 1000, 1, metric, true},
    {UnitKind::density, "g/cm3", 1000, 1, metric, false},
    {UnitKind::density, "g/cm\xC2\xB3", 1000, 1, metric, false},
    {UnitKind::density, "lb/in^3", pound * 1e4L, cubic_inch, us, true},
    {UnitKind::density, "lb/in3", pound * 1e4L, cubic_inch, us, false},
    {UnitKind::time, "s", 1, 1, metric, true},
    {UnitKind::time, "ms", 1, 1000, metric, true},
    {UnitKind::time, "min", 60, 1, metric, true},
    {UnitKind::energy, "J", 1000, 1, metric, true},
    {UnitKind::energy, "kJ", 1e6, 1, metric, true},
    {UnitKind::energy, "N m", 1000, 1, metric, true},
    {UnitKind::energy, "N*m", 1000, 1, metric, false},
    {UnitKind::energy, "Nm", 1000, 1, metric, false},
    {UnitKind::energy, "N mm", 1, 1, metric, true},
    {UnitKind::energy, "N*mm", 1, 1, metric, false},
    {UnitKind::energy, "Nmm", 1, 1, metric, false},
    {UnitKind::energy, "ft lbf", 12 * inch *pound_force, 10 * newton, us, true},
    {UnitKind::energy, "ft*lbf", 12 * inch *pound_force, 10 * newton, us, false},
    {UnitKind::energy, "in lbf", inch *pound_force, 10 * newton, us, true},
    {UnitKind::energy, "in*lbf", inch *pound_force, 10 * newton, us, false},
}};

const Unit *find_unit(std::string_view name, UnitKind kind)
{
  for (const Unit &unit : units)
    if (unit.kind == kind && unit.name == name)
      return &unit;
  return nullptr;
}

const Unit *find_unit_of_any_kind(std::string_view name)
{
  for (const Unit &unit : units)
    if (!unit.name.empty() && unit.name == name)
      return &unit;
  return nullptr;
}

const Unit *find_unit_in_other_case(std::string_view name, UnitKind kind)
{
  for (const Unit &unit : units)
    if (unit.kind == kind && lower_case(unit.name) == lower_case(name))
      return &unit;
  return nullptr;
}

constexpr const char *three_tons =
    "short-tonf (2000 lbf, 8.896 kN), long-tonf (2240 lbf, 9.964 kN) or metric-tonf (1000 "
    "kgf, 9.807 kN)";

/// Words for a ton that leave open which of the three it is.
bool is_some_ton(std::string_view unit)
{
  for (const std::string_view word : {"t", "ton", "tons", "tonne", "tonnes"})
    if (lower_case(unit) == word)
      return true;
  return false;
}

std::string unit_complaint(std::string_view unit, UnitKind kind)
{
  if (kind == UnitKind::force && is_some_ton(unit))
    return "'" + std::string(unit) + "' may be one of three forces; write " + three_tons;
  const std::string takes = to_text(kind) + " takes " + allowed_units(kind);
  if (unit.empty())
    return "the unit is missing; " + takes;
  if (const Unit *other = find_unit_of_any_kind(unit))
    return "'" + std::string(unit) + "' is a unit of " + to_text(other->kind) + "; " +
           takes;
  if (const Unit *other = find_unit_in_other_case(unit, kind))
    return "unknown unit '" + std::string(unit) + "', did you mean '" +
           std::string(other->name) + "'? Units are case-sensitive";
  for (std::size_t space = unit.rfind(' '); space != std::string_view::npos && space > 0;
       space             = unit.rfind(' ', space - 1))
    if (find_unit(trimmed(unit.substr(0, space)), kind))
      return "'" + std::string(trimmed(unit.substr(space))) +
             "' stands after the unit; give one number and one unit";
  return "unknown unit '" + std::string(unit) + "'; " + takes;
}

/// The inside value in a given unit.
double in_unit(double value, const Unit &unit)
{
  return static_cast<double>(value * unit.divide / unit.multiply);
}

/// The inside value of a number with a given unit.
double inside(const ShopNumber &number, const Unit &unit)
{
  if (unit.multiply == unit.divide) // nothing to round twice
    return number.value;
  return static_cast<double>(number.exact * unit.multiply / unit.divide);
}

/// The shortest digits that read back as the same double.
std::string shortest_digits(double value)
{
  const double            size  = std::abs(value);
  const bool              fixed = size == 0 || (size >= 1e-4 && size < 1e15);
  const std::chars_format format =
      fixed ? std::chars_format::fixed : std::chars_format::scientific;
  std::array<char, 64> buffer{};
  const auto           end =
      std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, format);
  return std::string(buffer.data(), end.ptr);
}

std::string with_unit(const std::string &digits, std::string_view unit)
{
  return unit.empty() ? digits : digits + " " + std::string(unit);
}

/// Unit in which people read a kind.
std::string_view shown_unit(UnitKind kind, UnitSystem system)
{
  const bool in_us = system == UnitSystem::us;
  switch (kind)
  {
  case UnitKind::length:
    return in_us ? "in" : "mm";
  case UnitKind::force:
    return in_us ? "kip" : "kN";
  case UnitKind::stress:
    return in_us ? "ksi" : "MPa";
  case UnitKind::angle:
    return "deg";
  case UnitKind::density:
    return in_us ? "lb/in^3" : "kg/m^3";
  case UnitKind::time:
    return "s";
  case UnitKind::energy:
    return in_us ? "ft lbf" : "J";
  case UnitKind::ratio:
  case UnitKind::count:
    break;
  }
  return "";
}

/// Units for exact text, the most readable first, the inside unit (always exact) last.
std::vector<std::string_view> exact_units(double value, UnitKind kind)
{
  switch (kind)
  {
  case UnitKind::length:
    return {"mm"};
  case UnitKind::force:
    return {"kN", "N"};
  case UnitKind::stress:
    if (std::abs(value) >= 10000)
      return {"GPa", "MPa"};
    return {"MPa"};
  case UnitKind::angle:
    return {"deg", "rad"};
  case UnitKind::density:
    return {"kg/m^3"};
  case UnitKind::time:
    return {"s"};
  case UnitKind::energy:
    return {"J", "N mm"};
  case UnitKind::ratio:
  case UnitKind::count:
    break;
  }
  return {""};
}
} // namespace

Quantity read_quantity(std::string_view text, UnitKind kind)
{
  Quantity               quantity;
  const std::string_view whole = trimmed(text);
  if (whole.empty())
  {
    quantity.error = "has no value";
    return quantity;
  }
  const ShopNumber number = read_shop_number(whole);
  if (!number.error.empty())
  {
    quantity.error = number.error;
    return quantity;
  }

  const std::string_view name = trimmed(number.rest);
  const Unit            *unit = find_unit(name, kind);
  if (!unit)
  {
    quantity.error = unit_complaint(name, kind);
    return quantity;
  }
  quantity.system = unit->system;
  quantity.value  = inside(number, *unit);
  if (name == "tonf")
    // The least of the three, so that no ram is taken to be stronger than it is.
    quantity.note = std::string("tonf is read as the short ton-force, the smallest of "
                                "three; write ") +
                    three_tons;
  if (!std::isfinite(quantity.value))
    quantity.error = "the number is too large";
  else if (kind == UnitKind::count && quantity.value != std::floor(quantity.value))
    quantity.error = "must be a whole number";
  else if (kind == UnitKind::count &&
           std::abs(quantity.value) > std::numeric_limits<int>::max())
    quantity.error = "the whole number is too large";
  return quantity;
}

std::string to_text(double value, UnitKind kind, UnitSystem system)
{
  const std::string_view name   = shown_unit(kind, system);
  const Unit            *unit   = find_unit(name, kind);
  const std::string      digits = fmt::format("{:.5e}", in_unit(value, *unit));
  return with_unit(shortest_digits(std::strtod(digits.c_str(), nullptr)), name);
}

std::string exact_text(double value, UnitKind kind)
{
  std::string text;
  for (const std::string_view name : exact_units(value, kind))
  {
    text = with_unit(shortest_digits(in_unit(value, *find_unit(name, kind))), name);
    if (read_quantity(text, kind).value == value)
      break;
  }
  return text;
}

std::string allowed_units(UnitKind kind)
{
  if (kind == UnitKind::ratio)
    return "a plain number or %";
  if (kind == UnitKind::count)
    return "a whole number without unit";
  std::string list;
  for (const Unit &unit : units)
    if (unit.kind == kind && unit.listed)
      list += (list.empty() ? "" : ", ") + std::string(unit.name);
  if (kind == UnitKind::force)
    list += " (= short-tonf)";
  return list;
}

std::string to_text(UnitKind kind)
{
  switch (kind)
  {
  case UnitKind::length:
    return "length";
  case UnitKind::force:
    return "force";
  case UnitKind::stress:
    return "stress";
  case UnitKind::angle:
    return "angle";
  case UnitKind::ratio:
    return "ratio";
  case UnitKind::count:
    return "count";
  case UnitKind::density:
    return "density";
  case UnitKind::time:
    return "time";
  case UnitKind::energy:
    return "energy";
  }
  return "";
}
} // namespace throughbend
