#include "solver/limits/card_metals.h"

#include "inputs/keys/material_catalogue.h"
#include "inputs/units/shop_fraction.h"
#include "solver/screening/screen_parts.h"

#include <algorithm>
#include <limits>

namespace throughbend
{
namespace
{
enum class MetalKindByStiffness
{
  steel,
  aluminium,
  other
};

// Young's moduli of steels, stainless ones included, and of aluminium's alloys (handbooks,
// from memory) [MPa].
MetalKindByStiffness kind_of(const Material &material)
{
  if (material.young >= 180e3 && material.young <= 220e3)
    return MetalKindByStiffness::steel;
  return material.young >= 65e3 && material.young <= 75e3 ? MetalKindByStiffness::aluminium
                                                          : MetalKindByStiffness::other;
}

/// Electrodes and heat-affected zones are no plates that a coupon is cut from.
bool is_plate(const MaterialRow &row)
{
  return row.standard.rfind("AWS A5", 0) != 0 &&
         row.grade().find("-haz") == std::string::npos;
}

/// All of it as strong as the strongest zone beside this plate.
Case as_strong_as_its_weld(Case c, const CaseLimits &limits)
{
  c.material.flow = c.material.flow.scaled(limits.strongest_zone);
  return c;
}
} // namespace

RuleMetal metal_of_case(const Material &material, const double thickness)
{
  return {material.flow.initial_stress(), material.elongation, likely_system(thickness)};
}

bool refuses_stretch(const ScreenLine &line)
{
  return line.verdict == Verdict::no || (line.key.rfind("nominal_", 0) == 0 &&
                                         line.against && line.value > line.against->value);
}

bool bears_stretch(const Case &c, const ForceBand &band)
{
  const std::vector<ScreenLine> lines = screen_strain(c, band).lines;
  return std::none_of(lines.begin(), lines.end(), refuses_stretch);
}

double stretch_of_a_point(const Case &c, const ForceBand &band)
{
  for (const ScreenLine &line : screen_strain(c, band).lines)
    if (line.key == "outer_elongation" && line.high)
      return *line.high;
  return std::numeric_limits<double>::infinity();
}

bool same_kind(const Material &a, const Material &b)
{
  return kind_of(a) == kind_of(b) && kind_of(a) != MetalKindByStiffness::other;
}

std::string kind_text(const Material &material)
{
  switch (kind_of(material))
  {
  case MetalKindByStiffness::steel:
    return "steel";
  case MetalKindByStiffness::aluminium:
    return "aluminium";
  case MetalKindByStiffness::other:
    break;
  }
  return "metal of its kind";
}

CardMetals card_metals(const CaseLimits &limits)
{
  CardMetals metals;
  Case       with_metal = limits.extreme;
  for (const MaterialRow &row : built_in_materials().rows())
  {
    if (row.kind == MetalKind::invented || !is_plate(row))
      continue;
    with_metal.material   = row.material;
    const RuleMetal metal = metal_of_case(row.material, limits.extreme.coupon.thickness);
    if (limits.rule &&
        metal_mismatch(built_in_rules(), limits.rule->by_rule.rule.rule, metal))
      metals.by_rule.push_back(row.grade());
    else if (row.material.elongation <= 0)
      metals.not_known.push_back(row.grade());
    else if (limits.rule && goes_by_group(limits.rule->by_rule.rule))
      metals.by_group.push_back(row.grade());
    else if (!bears_stretch(with_metal, force_band(with_metal)))
      metals.by_stretch.push_back(row.grade());
    // What the sheet calls too strong is on none of its lists, whatever its own curve.
    else if (row.material.flow.initial_stress() > limits.ram_yield ||
             !ram_bends(as_strong_as_its_weld(with_metal, limits)))
      metals.by_ram.push_back(row.grade());
    else
    {
      metals.taken.push_back(row.grade());
      metals.cleared.push_back(row.material);
      const double most      = stretch_of_a_point(with_metal, force_band(with_metal));
      metals.most_at_a_point = std::max(metals.most_at_a_point, most);
      if (most > row.material.elongation)
        metals.at_a_point.push_back(row.grade());
    }
  }
  return metals;
}
} // namespace throughbend
