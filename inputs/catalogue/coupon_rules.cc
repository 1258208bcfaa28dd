#include "inputs/catalogue/coupon_rules.h"

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/catalogue/rule_pairs.h"
#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "inputs/units/shop_fraction.h"

#include <algorithm>

namespace throughbend
{
namespace
{
using Faults = std::vector<CatalogueFault>;

void refuse(const CatalogueRow &row, const std::string &column, const std::string &problem,
            Faults &faults)
{
  if (!problem.empty())
    faults.push_back(cell_fault(row, column, problem));
}

RuleUnits units_of(const CatalogueRow &row, Faults &faults)
{
  const std::string &cell = row.cell("units");
  if (cell == "us")
    return RuleUnits::us;
  if (cell == "metric")
    return RuleUnits::metric;
  if (!cell.empty())
    refuse(row, "units", "is not one of: empty, metric, us", faults);
  return RuleUnits::any;
}

DimensionRule dimension(const CatalogueRow &row, const std::string &column, Faults &faults)
{
  const DimensionRule rule = read_dimension(row.cell(column), {"t", "T", "P", "C", "R"});
  refuse(row, column, rule.error, faults);
  return rule;
}

RangeCell range(const CatalogueRow &row, const std::string &column, Faults &faults)
{
  const RangeCell cell = read_range(row.cell(column), UnitKind::length);
  refuse(row, column, cell.error, faults);
  return cell;
}

HowNotes how_of(const CatalogueRow &row, Faults &faults)
{
  const HowNotes how = read_how(row.cell("how"));
  refuse(row, "how", how.error, faults);
  return how;
}

CouponRule coupon_rule(const CatalogueRow &row, Faults &faults)
{
  CouponRule rule;
  rule.place         = row.place;
  rule.rule          = row.cell("rule");
  rule.standard      = row.cell("standard");
  rule.edition       = row.cell("edition");
  rule.clause        = row.cell("clause");
  rule.bend          = row.cell("bend");
  rule.note          = row.cell("note");
  rule.units         = units_of(row, faults);
  rule.for_thickness = range(row, "for_thickness", faults);
  rule.for_plate     = range(row, "for_plate", faults);
  rule.for_pipe      = range(row, "for_pipe", faults);
  rule.length        = dimension(row, "length", faults);
  rule.width         = dimension(row, "width", faults);
  rule.thickness     = dimension(row, "thickness", faults);
  rule.edge_radius   = dimension(row, "edge_radius", faults);
  rule.how           = how_of(row, faults);
  return rule;
}

SurfaceLimit surface_limit(const CatalogueRow &row, Faults &faults)
{
  SurfaceLimit limit;
  limit.place                = row.place;
  limit.rule                 = row.cell("rule");
  limit.standard             = row.cell("standard");
  limit.edition              = row.cell("edition");
  limit.clause               = row.cell("clause");
  limit.note                 = row.cell("note");
  limit.units                = units_of(row, faults);
  limit.single               = dimension(row, "single", faults);
  limit.counted_from         = dimension(row, "counted_from", faults);
  limit.sum                  = dimension(row, "sum", faults);
  limit.corner_crack         = dimension(row, "corner_crack", faults);
  limit.corner_crack_by_flaw = dimension(row, "corner_crack_by_flaw", faults);
  limit.how                  = how_of(row, faults);
  return limit;
}

template <class Reading, class Made>
Reading read_rows(CatalogueSheet sheet, Made made)
{
  Reading reading;
  reading.faults = std::move(sheet.faults);
  for (const CatalogueRow &row : sheet.rows)
  {
    const std::size_t before = reading.faults.size();
    const auto        rule   = made(row, reading.faults);
    if (reading.faults.size() == before)
      reading.rows.push_back(rule);
  }
  return reading;
}

/// A range that is not given, or whose length is not known, excludes nothing.
bool excluded(const RangeCell &range, double value)
{
  return range.given() && value > 0 && !range.takes(value);
}
} // namespace

CouponRuleReading read_coupon_rules(std::string_view text, const std::string &name)
{
  CouponRuleReading reading = read_rows<CouponRuleReading>(
      read_sheet(text, name,
                 {{"rule", "standard", "edition", "clause", "bend", "units",
                   "for_thickness", "for_plate", "for_pipe", "length", "width", "thickness",
                   "edge_radius", "how", "note"},
                  {"rule", "standard", "how"}}),
      coupon_rule);
  pair_families(reading.rows, {&CouponRule::for_thickness, &CouponRule::for_plate,
                               &CouponRule::for_pipe});
  return reading;
}

SurfaceLimitReading read_surface_limits(std::string_view text, const std::string &name)
{
  return read_rows<SurfaceLimitReading>(
      read_sheet(
          text, name,
          {{"rule", "standard", "edition", "clause", "units", "single", "counted_from",
            "sum", "corner_crack", "corner_crack_by_flaw", "how", "note"},
           {"rule", "standard", "single", "how"}}),
      surface_limit);
}

const std::vector<CouponRule> &built_in_coupon_rules()
{
  static const std::vector<CouponRule> rules =
      read_coupon_rules(coupon_rules_csv(), "coupon_rules.csv").rows;
  return rules;
}

const std::vector<SurfaceLimit> &built_in_surface_limits()
{
  static const std::vector<SurfaceLimit> limits =
      read_surface_limits(surface_limits_csv(), "surface_limits.csv").rows;
  return limits;
}

Lengths letters_of(const CouponRequest &request)
{
  Lengths lengths;
  for (const auto &[letter, value] :
       {std::pair<const char *, double>{"t", request.thickness},
        {"T", request.plate},
        {"P", request.pipe},
        {"C", request.opening},
        {"R", request.radius}})
    if (value > 0)
      lengths[letter] = value;
  return lengths;
}

CouponRule coupon_by_rule(const std::vector<CouponRule> &rules, const std::string &name,
                          const CouponRequest &request)
{
  const RuleUnits units =
      request.units.value_or(likely_system(request.thickness)) == UnitSystem::us
          ? RuleUnits::us
          : RuleUnits::metric;
  std::vector<std::string> names;
  bool                     known = false;
  for (const CouponRule &rule : rules)
  {
    names.push_back(rule.rule);
    known = known || rule.rule == name;
    if (rule.rule == name && (rule.units == RuleUnits::any || rule.units == units) &&
        !excluded(rule.for_thickness, request.thickness) &&
        !excluded(rule.for_plate, request.plate) && !excluded(rule.for_pipe, request.pipe))
      return rule;
  }
  if (known)
    throw InputError("the coupon rule " + name +
                     " is for other coupons; throughbend rules lists which");
  const auto nearest = nearest_name(name, names);
  throw InputError(
      "there is no coupon rule '" + clipped(name, 60) + "'; " +
      (nearest ? "did you mean '" + *nearest + "'?" : "throughbend rules lists all"));
}
} // namespace throughbend
