#include "postprocess/card/card_figure.h"

#include "inputs/units/display_units.h"
#include "inputs/units/exact_units.h"
#include "inputs/units/shop_fraction.h"

#include <cmath>
#include <stdexcept>

namespace throughbend
{
namespace
{
/// Unit of a family: its name, how many there are to the inside unit, digits after the
/// point.
struct Shown
{
  const char *unit;
  double      factor;
  int         digits;
};

Shown shown_as(const double value, const Measure measure, const UnitSystem units)
{
  const bool us = units == UnitSystem::us;
  switch (measure)
  {
  case Measure::length:
    return us ? Shown{"in", 1 / mm_per_inch, 2} : Shown{"mm", 1, 1};
  case Measure::force:
    return us ? Shown{"kip", 1 / n_per_kip, value < 100e3 ? 2 : 1}
              : Shown{"kN", 1e-3, value < 100e3 ? 1 : 0};
  case Measure::stress:
    return us ? Shown{"ksi", 1 / mpa_per_ksi, 0} : Shown{"MPa", 1, 0};
  case Measure::speed:
    return us ? Shown{"ft/s", 1000 / mm_per_foot, 0} : Shown{"m/s", 1, 0};
  case Measure::line_load:
  case Measure::energy:
  case Measure::angle:
  case Measure::share:
  case Measure::count:
    break;
  }
  throw std::logic_error("a card shows no such measure");
}

/// Of thicknesses; a longer way is a fraction by chance only.
bool is_fraction(const double value, const Measure measure, const UnitSystem units)
{
  return measure == Measure::length && units == UnitSystem::us && value < mm_per_inch &&
         fraction_text(value);
}

/// How many of the last digit that is shown.
double rounded_count(const double value, const Shown &as, const Rounded rounded)
{
  constexpr double slack = 1e-6; // 12 mm that a search found as 11.9999999 are 12 mm
  const double     whole = value * as.factor * std::pow(10, as.digits);
  return rounded == Rounded::down ? std::floor(whole + slack) : std::ceil(whole - slack);
}
} // namespace

double card_value(const double value, const Measure measure, const Rounded rounded,
                  const UnitSystem units)
{
  if (is_fraction(value, measure, units))
    return value;
  const Shown as = shown_as(value, measure, units);
  return rounded_count(value, as, rounded) / std::pow(10, as.digits) / as.factor;
}

std::string card_figure(const double value, const Measure measure, const Rounded rounded,
                        const UnitSystem units)
{
  if (is_fraction(value, measure, units))
    return *fraction_text(value);
  const Shown as = shown_as(value, measure, units);
  return decimal_text(rounded_count(value, as, rounded) / std::pow(10, as.digits),
                      as.digits) +
         " " + as.unit;
}

std::string card_figures(const double value, const Measure measure, const Rounded rounded,
                         const UnitSystem first)
{
  return card_figure(value, measure, rounded, first) + " (" +
         card_figure(value, measure, rounded, other_units(first)) + ")";
}

UnitSystem other_units(const UnitSystem units)
{
  return units == UnitSystem::metric ? UnitSystem::us : UnitSystem::metric;
}
} // namespace throughbend
