#include "solver/study/fit/fitted_case.h"

#include "inputs/units/units.h"

namespace throughbend
{
namespace
{
struct FrictionKey
{
  const char *name;
  double Friction::*at;
};
constexpr FrictionKey other_frictions[] = {
    {"friction.plunger", &Friction::plunger},
    {"friction.frame", &Friction::frame},
    {"friction.left_shoulder", &Friction::other_left_shoulder}};

bool is_there(const Case &own, const FrictionKey &key)
{
  return own.friction.*key.at >= 0 &&
         (key.at != &Friction::frame || own.fixture.frame.present());
}

bool goes_along(const Case &own, const FrictionKey &key)
{
  return is_there(own, key) && own.friction.*key.at == own.friction.shoulders;
}
} // namespace

Case case_at(const Case &own, const FitPoint &point)
{
  Case c = own;
  for (const FrictionKey &key : other_frictions)
    if (goes_along(own, key))
      c.friction.*key.at = point.friction;
  c.friction.shoulders = point.friction;
  if (point.friction != own.friction.shoulders)
    c.friction.lubricant.clear();
  if (point.factor == 1)
    return c;
  c.material.grade.clear();
  c.material.flow = c.material.flow.scaled(point.factor);
  c.material.kinematic.saturation *= point.factor; // its share of the curve stays
  c.material.tensile_strength *= point.factor;
  for (ZoneFlow *zone : {&c.weld.metal_flow, &c.weld.haz_flow})
    if (zone->own)
    {
      zone->curve = zone->curve.scaled(point.factor);
      zone->grade.clear();
    }
  return c;
}

std::string friction_keys(const Case &own)
{
  std::string names = "friction.shoulders";
  for (const FrictionKey &key : other_frictions)
    if (goes_along(own, key))
      names += std::string(", ") + key.name;
  return names;
}

std::string frictions_that_stay(const Case &own)
{
  std::string names;
  for (const FrictionKey &key : other_frictions)
    if (is_there(own, key) && !goes_along(own, key))
      names += (names.empty() ? "" : ", ") + std::string(key.name) + " = " +
               exact_text(own.friction.*key.at, UnitKind::ratio);
  return names;
}
} // namespace throughbend
