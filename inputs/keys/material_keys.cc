#include "inputs/keys/material_keys.h"

#include "inputs/keys/option_table.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstdlib>
#include <vector>

namespace throughbend
{
std::string material_keys(const Material &material)
{
  const std::vector<std::string> wanted = {
      "young",       "law",           "yield",      "hardening",
      "saturation",  "rate",          "strength",   "prestrain",
      "exponent",    "table",         "formula",    "constants",
      "last_strain", "extrapolation", "elongation", "tensile_strength"};
  Case c;
  c.material = material;
  std::string lines;
  for (const Option &option : option_table())
    if (option.section == "material" &&
        std::find(wanted.begin(), wanted.end(), option.name) != wanted.end() &&
        (!option.applies || option.applies(c)) &&
        !(option.name == "young" && material.young <= 0) &&
        !(option.name == "elongation" && material.elongation <= 0) &&
        !(option.name == "tensile_strength" && material.tensile_strength <= 0))
      lines += option.name + " = " + value_text(option, c) + "\n";
  return lines;
}

FlowCurve with_five_digits(FlowCurve curve)
{
  for (double *value :
       {&curve.yield, &curve.hardening, &curve.saturation, &curve.rate, &curve.strength,
        &curve.prestrain, &curve.exponent, &curve.last_strain})
    *value = std::strtod(fmt::format("{:.5g}", *value).c_str(), nullptr);
  curve.settle_yield();
  return curve;
}
} // namespace throughbend
