#include "postprocess/words/size_limits.h"

#include "inputs/units/exact_units.h"
#include "inputs/units/shop_fraction.h"

#include <fmt/core.h>

#include <cmath>

namespace throughbend
{
namespace
{
/// A family's unit, and the finest step in which a limit is written [unit].
struct Measure
{
  double      unit, step; ///< [mm], [unit]
  int         digits;
  const char *name;
};

const Measure &measure(const UnitSystem units)
{
  static const Measure millimetres = {1, 0.01, 2, "mm"},
                       inches      = {mm_per_inch, 0.001, 3, "in"};
  return units == UnitSystem::us ? inches : millimetres;
}

std::string short_number(const double value, const int digits)
{
  std::string text = fmt::format("{:.{}f}", value + 0., digits); // -0 becomes 0
  while (text.find('.') != std::string::npos && (text.back() == '0' || text.back() == '.'))
  {
    const bool point = text.back() == '.';
    text.pop_back();
    if (point)
      break;
  }
  return text == "-0" ? "0" : text;
}

/// The ends in steps of a unit, inward; the slack takes up what arithmetic adds.
double raised(const double low, const Measure &m)
{
  return std::ceil(low / m.unit / m.step - 1e-6) * m.step;
}

double lowered(const double high, const Measure &m)
{
  return std::floor(high / m.unit / m.step + 1e-6) * m.step;
}

/// What the text of a length says, in its own unit.
double shown(const double size, const UnitSystem units)
{
  if (units == UnitSystem::metric)
    return std::round((size + std::copysign(1e-9, size)) * 100) / 100;
  if (fraction_text(size))
    return std::round(size / mm_per_inch * 32) / 32;
  const double digits = std::abs(size / mm_per_inch) < 0.01 ? 1e4 : 1e3;
  return std::round(size / mm_per_inch * digits) / digits;
}

std::string signed_number(const double value, const int digits)
{
  const std::string text = short_number(value, digits);
  return text.front() == '-' ? text : "+" + text;
}

/// A rule's figures are written as all of its sizes are, tolerances inward.
std::string end_text(const SizeLimits &limits, const double end, const UnitSystem units,
                     double (*inward)(double, const Measure &))
{
  if (limits.kind == LimitKind::by_rule)
    return units == UnitSystem::us ? inch_text(end) : millimetre_text(end);
  const Measure &m = measure(units);
  return short_number(inward(end, m), m.digits) + " " + m.name;
}

std::string range_text(const SizeLimits &limits, const UnitSystem units)
{
  const Range      &range = limits.range;
  const bool        low = std::isfinite(range.low), high = std::isfinite(range.high);
  const std::string from = low ? end_text(limits, range.low, units, raised) : "";
  const std::string to   = high ? end_text(limits, range.high, units, lowered) : "";
  const bool        open = range.low_edge == Edge::open || range.high_edge == Edge::open;
  if (low && high && open && limits.kind == LimitKind::by_rule)
    return (range.low_edge == Edge::open ? "above " : "at least ") + from +
           (range.high_edge == Edge::open ? ", below " : ", at most ") + to;
  if (low && high)
    return from + " to " + to;
  if (low)
    return (range.low_edge == Edge::open ? "above " : "at least ") + from;
  return (range.high_edge == Edge::open ? "below " : "at most ") + to;
}

bool is_empty(const Range &range, const UnitSystem units)
{
  return raised(range.low, measure(units)) >= lowered(range.high, measure(units));
}
} // namespace

std::string deviation_text(const double size, const SizeLimits &limits,
                           const UnitSystem units)
{
  const Range &range = limits.range;
  if (limits.kind != LimitKind::tolerance || !std::isfinite(range.low) ||
      !std::isfinite(range.high) || is_empty(range, units))
    return "";
  const Measure &m      = measure(units);
  const double   own    = shown(size, units);
  const int      digits = units == UnitSystem::us ? 4 : 2; // 1/16 in has four
  const double   up = lowered(range.high, m) - own, down = raised(range.low, m) - own;
  return signed_number(up, digits) + "/" +
         (std::abs(down) < 1e-9 ? "-0" : signed_number(down, digits));
}

std::string limits_words(const SizeLimits &limits, const UnitSystem first)
{
  const Range      &range  = limits.range;
  const UnitSystem  other  = first == UnitSystem::us ? UnitSystem::metric : UnitSystem::us;
  const std::string origin = limits.origin.empty() ? "" : ", " + limits.origin;
  if (!std::isfinite(range.low) && !std::isfinite(range.high))
    return "";
  if (limits.kind == LimitKind::tolerance &&
      (is_empty(range, first) || is_empty(range, other)))
    return "No room for a tolerance of " + limits.letter + " was found" + origin + ".";
  return "Limits of " + limits.letter + ": " + range_text(limits, first) + " (" +
         range_text(limits, other) + ")" + origin + ".";
}
} // namespace throughbend
