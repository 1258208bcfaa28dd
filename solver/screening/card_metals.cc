#include "solver/screening/card_metals.h"

#include "inputs/material_catalogue.h"
#include "inputs/shop_fraction.h"

namespace throughbend
{
CardMetals card_metals(const CaseLimits &limits)
{
  CardMetals metals;
  Case       with_metal = limits.extreme;
  for (const MaterialRow &row : built_in_materials().rows())
  {
    if (row.kind == MetalKind::invented)
      continue;
    with_metal.material = row.material;
    const RuleMetal metal{row.material.flow.initial_stress(), row.material.elongation,
                          likely_system(limits.extreme.coupon.thickness)};
    if (limits.rule &&
        metal_mismatch(built_in_rules(), limits.rule->by_rule.rule.rule, metal))
      metals.by_rule.push_back(row.grade());
    else if (row.material.elongation > 0 && row.material.elongation < limits.stretch)
      metals.by_stretch.push_back(row.grade());
    else if (!ram_bends(with_metal))
      metals.by_ram.push_back(row.grade());
    else
      metals.taken.push_back(row.grade());
  }
  return metals;
}
} // namespace throughbend
