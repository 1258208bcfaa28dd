#include "solver/study/fit/other_units.h"

#include "inputs/units/units.h"

#include <fmt/core.h>

#include <cmath>

namespace throughbend
{
namespace
{
double size_of(const std::string &unit, const UnitKind kind)
{
  return read_quantity("1 " + unit, kind).value;
}

void add_units(std::vector<OtherUnit> &list, const std::string &given, const UnitKind kind,
               const std::vector<std::string> &others, const char *const what)
{
  const double size = size_of(given, kind);
  if (!(size > 0))
    return;
  for (const std::string &other : others)
  {
    const double factor = size_of(other, kind) / size;
    if (std::abs(std::log(factor)) < 0.05)
      continue;
    const std::string says =
        fmt::format("the {} were in {} and not in {}", what, other, given);
    list.push_back({kind == UnitKind::length ? 1 : factor,
                    kind == UnitKind::length ? factor : 1, says});
  }
}
} // namespace

std::vector<OtherUnit> other_units(const ShopReadings &readings)
{
  std::vector<OtherUnit> list;
  if (readings.force_from == ForceFrom::force)
    add_units(list, readings.force_unit, UnitKind::force,
              {"N", "kN", "kgf", "metric-tonf", "short-tonf", "lbf", "kip"}, "forces");
  else
  {
    add_units(list, readings.force_unit, UnitKind::stress,
              {"bar", "psi", "MPa", "ksi", "kPa"}, "pressures");
    list.push_back({4, 1, "jack.bore were the piston's radius and not its diameter"});
    list.push_back({0.25, 1, "the piston's diameter were half of jack.bore"});
  }
  if (readings.travel_from == TravelFrom::ruler)
    add_units(list, readings.travel_unit, UnitKind::length, {"mm", "cm", "in"}, "travels");
  return list;
}
} // namespace throughbend
