#include "inputs/units/table_unit.h"

#include <cmath>

namespace throughbend
{
namespace
{
const double pi = std::acos(-1.);
} // namespace

double TableUnit::of(const double inside) const
{
  constexpr double digits = 1e12;
  return scale == 1 ? inside : std::round(inside / scale * digits) / digits;
}

TableUnit table_unit(const UnitKind kind)
{
  switch (kind)
  {
  case UnitKind::length:
    return {"mm", 1};
  case UnitKind::force:
    return {"N", 1};
  case UnitKind::stress:
    return {"MPa", 1};
  case UnitKind::angle:
    return {"deg", pi / 180};
  case UnitKind::density:
    return {"kg/m^3", 1};
  case UnitKind::time:
    return {"s", 1};
  case UnitKind::energy:
    return {"N mm", 1};
  case UnitKind::ratio:
  case UnitKind::count:
    break;
  }
  return {"", 1};
}
} // namespace throughbend
