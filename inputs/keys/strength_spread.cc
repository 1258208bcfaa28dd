#include "inputs/keys/strength_spread.h"

#include "inputs/catalogue/catalogue_sheet.h"
#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/keys/material_catalogue.h"

#include <fmt/core.h>

#include <cmath>

namespace throughbend
{
namespace
{
const CatalogueColumns &columns()
{
  static const CatalogueColumns known = {
      {"standard", "least_yield", "mean_ratio", "cov", "source", "how", "note"},
      {"mean_ratio", "cov", "source", "how"}};
  return known;
}

/// With a mean and a coefficient of variation: sigma^2 = ln(1 + cov^2), median = mean /
/// sqrt(1 + cov^2).
ScatterLaw lognormal_of(const double mean, const double cov)
{
  ScatterLaw law;
  law.kind   = ScatterKind::lognormal;
  law.first  = mean / std::sqrt(1 + cov * cov);
  law.second = std::exp(std::sqrt(std::log1p(cov * cov)));
  return law;
}

/// The last row of the table: any metal.
const StrengthSpread &any_metal()
{
  return built_in_strength_spreads().back();
}

const StrengthSpread &row_for(const std::string &standard, const double least_yield)
{
  for (const StrengthSpread &row : built_in_strength_spreads())
    if (!row.standard.empty() && row.standard == standard &&
        row.least_yield.takes(least_yield))
      return row;
  return any_metal();
}

std::string given_source(const StrengthSpread &row)
{
  return row.source + (row.how.row == How::from_memory ? " (from memory)" : "");
}
} // namespace

StrengthSpreadReading read_strength_spreads(std::string_view text, const std::string &name)
{
  StrengthSpreadReading reading;
  const CatalogueSheet  sheet = read_sheet(text, name, columns());
  for (const CatalogueFault &fault : sheet.faults)
    reading.faults.push_back(fault.text());
  for (const CatalogueRow &row : sheet.rows)
  {
    StrengthSpread made;
    made.standard        = row.cell("standard");
    made.least_yield     = read_range(row.cell("least_yield"), UnitKind::stress);
    made.source          = row.cell("source");
    made.how             = read_how(row.cell("how"));
    made.place           = row.place;
    const Quantity ratio = read_quantity(row.cell("mean_ratio"), UnitKind::ratio);
    const Quantity cov   = read_quantity(row.cell("cov"), UnitKind::ratio);
    made.mean_ratio      = ratio.value;
    made.cov             = cov.value;
    for (const std::string &problem :
         {made.least_yield.error, made.how.error, ratio.error, cov.error})
      if (!problem.empty())
        reading.faults.push_back(row.place + ": " + problem);
    reading.rows.push_back(made);
  }
  return reading;
}

const std::vector<StrengthSpread> &built_in_strength_spreads()
{
  static const std::vector<StrengthSpread> rows =
      read_strength_spreads(strength_spreads_csv(), "strength_spreads.csv").rows;
  return rows;
}

StrengthLaw strength_law(const Material &material, const double own_strength)
{
  if (least_strength_words(material).empty())
    return {lognormal_of(own_strength, any_metal().cov),
            fmt::format("assumed: {:.3g} % about the case's own value; {}",
                        100 * any_metal().cov, given_source(any_metal()))};
  const MaterialRow    &metal = built_in_materials().row(material.grade);
  const StrengthSpread &row = row_for(metal.standard, metal.material.flow.initial_stress());
  return {lognormal_of(row.mean_ratio * own_strength, row.cov),
          fmt::format("{} is the least that {} requires: mean {:.3g} times that, {:.3g} %; "
                      "{}",
                      material.grade, metal.standard, row.mean_ratio, 100 * row.cov,
                      given_source(row))};
}
} // namespace throughbend
