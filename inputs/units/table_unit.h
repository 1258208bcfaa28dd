#pragma once
// The unit of a number in the tables that we write: the inside unit, but degrees for an
// angle. No table depends on the units that a user prefers.

#include "inputs/units/units.h"

namespace throughbend
{
/// N, mm, MPa, s, kg/m^3, N mm, and deg.
struct TableUnit
{
  const char *name;  ///< empty: a plain number
  double      scale; ///< of one such unit in the inside unit

  double of(double inside) const; ///< 60 deg, not 60.00000000000001
};
TableUnit table_unit(UnitKind kind);
} // namespace throughbend
