// Comparison of a fixture with a rule, declared in inputs/catalogue/fixture_by_rule.h.

#include "inputs/catalogue/fixture_by_rule.h"
#include "inputs/catalogue/rule_choice.h"
#include "inputs/units/nominal_strain.h"
#include "inputs/units/shop_fraction.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
Agreement judged(double difference, double tolerance)
{
  constexpr double slack = 1e-9; // sums of decimals
  if (std::abs(difference) <= tolerance + slack)
    return Agreement::ok;
  return std::abs(difference) <= 2 * tolerance + slack ? Agreement::close : Agreement::no;
}

/// Against a dimension: inside its limits all is well; past them, and without limits, the
/// difference counts.
ComparisonRow compared(const RuleDimension &rule, const std::string &key, double ours,
                       double tolerance)
{
  ComparisonRow row;
  row.words = rule.words;
  row.key   = key;
  row.ours  = ours;
  row.rules = rule.value;
  row.how   = rule.how;
  if (rule.limited())
    row.rules = std::min(std::max(ours, rule.limits.low), rule.limits.high);
  row.difference = ours - row.rules;
  row.agreement  = judged(row.difference, tolerance);
  // A limit is a limit: past it by less than the tolerance is close, not good.
  if (rule.limited() && !rule.limits.contains(ours) && row.agreement == Agreement::ok)
    row.agreement = Agreement::close;
  row.remark = rule.as_written;
  return row;
}

const RuleDimension *find(const RuleFixture &fixture, const std::string &symbol)
{
  for (const RuleDimension &dimension : fixture.dimensions)
    if (dimension.symbol == symbol)
      return &dimension;
  return nullptr;
}

std::vector<ComparisonRow> dimension_rows(const RuleFixture &rule, const Fixture &ours,
                                          double tolerance)
{
  std::vector<ComparisonRow> rows;
  const auto add = [&](const std::string &symbol, const std::string &key, double value)
  {
    if (const RuleDimension *dimension = find(rule, symbol))
      rows.push_back(compared(*dimension, key, value, tolerance));
  };
  add("A", "plunger.width", ours.plunger.width);
  add("B", "plunger.nose_radius", ours.plunger.nose_radius);
  if (rule.rule.jig != Jig::wrap)
  {
    add("C", "shoulders.opening", ours.shoulders.opening);
    // A rule that only says how wide at most means one that the legs go through.
    const double least = ours.plunger.width + 2 * rule.thickness;
    if (!rows.empty() && rows.back().key == "shoulders.opening" &&
        ours.shoulders.opening < least - 1e-6 * least &&
        rows.back().agreement == Agreement::ok)
    {
      rows.back().rules      = least;
      rows.back().difference = ours.shoulders.opening - least;
      rows.back().agreement  = Agreement::no;
      rows.back().remark += "; at least A + 2t for the legs";
    }
  }
  add("shoulder_radius", "shoulders.radius", ours.shoulders.radius);
  return rows;
}

/// The coupon's thickness and the strain it gets; both follow from more than one figure.
void add_derived_rows(const RuleFixture &rule, const Fixture &ours, double thickness,
                      double tolerance, std::vector<ComparisonRow> &rows)
{
  ComparisonRow coupon;
  coupon.words      = "coupon thickness";
  coupon.key        = "coupon.thickness";
  coupon.ours       = thickness;
  coupon.rules      = rule.thickness;
  coupon.difference = thickness - rule.thickness;
  coupon.agreement  = judged(coupon.difference, tolerance);
  coupon.how        = rule.rule.how.of("thickness");
  coupon.remark     = rule.rule.thickness.text;
  if (rule.rule.thickness.given())
    rows.push_back(coupon);

  if (rule.plunger_width <= 0)
    return;
  ComparisonRow strain;
  strain.words      = "nominal outer strain t / (A + t)";
  strain.kind       = UnitKind::ratio;
  strain.ours       = nominal_strain(ours.plunger.bend_diameter(), thickness);
  strain.rules      = rule.strain();
  strain.difference = strain.ours - strain.rules;
  strain.agreement  = judged(strain.difference, 0.005); // half a per cent of strain
  strain.how        = How::computed;
  rows.push_back(strain);
}

void add_metal_row(const RuleCatalogue &catalogue, const std::string &rule,
                   const RuleRequest &request, std::vector<ComparisonRow> &rows)
{
  const auto mismatch = metal_mismatch(catalogue, rule, metal_of(request));
  if (!mismatch)
    return;
  ComparisonRow row;
  row.kind       = mismatch->kind;
  row.words      = row.kind == UnitKind::stress ? "yield strength of the base metal"
                                                : "elongation of the base metal";
  row.key        = row.kind == UnitKind::stress ? "material.yield" : "material.elongation";
  row.ours       = mismatch->value;
  row.rules      = std::min(std::max(row.ours, mismatch->range.low), mismatch->range.high);
  row.difference = row.ours - row.rules;
  row.agreement  = Agreement::no;
  row.remark     = mismatch_text(rule, *mismatch);
  row.how        = catalogue.rows_of(rule).front().how.row;
  if (!mismatch->better.empty())
  {
    const RuleFixture better = fixture_by_rule(catalogue, mismatch->better, request);
    row.remark += ", " + both_text(better.plunger_width, metal_of(request).units) + " wide";
  }
  rows.push_back(row);
}

/// How far a comparison is from agreement, to choose the nearest way.
double distance(const std::vector<ComparisonRow> &rows)
{
  double sum = 0;
  for (const ComparisonRow &row : rows)
    if (row.kind == UnitKind::length)
      sum += std::abs(row.difference);
  return sum;
}
/// The way of the rule whose dimensions are nearest to ours.
RuleComparison nearest_way(const RuleCatalogue &catalogue, const std::string &name,
                           const Fixture &fixture, const RuleRequest &asked,
                           double tolerance)
{
  RuleComparison best;
  bool           first = true;
  for (const RuleFixture &rule : fixtures_by_rule(catalogue, name, asked))
  {
    const std::vector<ComparisonRow> rows = dimension_rows(rule, fixture, tolerance);
    if (!first && distance(rows) >= distance(best.rows))
      continue;
    best  = {rule, rows, tolerance};
    first = false;
  }
  return best;
}

} // namespace

std::string to_text(Agreement agreement)
{
  switch (agreement)
  {
  case Agreement::ok:
    return "ok";
  case Agreement::close:
    return "close";
  case Agreement::no:
    return "no";
  }
  return "";
}

Agreement RuleComparison::worst() const
{
  Agreement worst = Agreement::ok;
  for (const ComparisonRow &row : rows)
    worst = std::max(worst, row.agreement);
  return worst;
}

RuleComparison compare_with_rule(const RuleCatalogue &catalogue, const std::string &name,
                                 const Fixture &fixture, const RuleRequest &request,
                                 double tolerance)
{
  RuleRequest asked   = request;
  asked.former        = fixture.plunger.width;
  RuleComparison best = nearest_way(catalogue, name, fixture, asked, tolerance);
  if (best.worst() != Agreement::ok && !request.units)
  {
    // A jig made to the figures that the standard prints in the other family is by the
    // rule.
    RuleRequest in_other = asked;
    in_other.units =
        metal_of(asked).units == UnitSystem::us ? UnitSystem::metric : UnitSystem::us;
    const RuleComparison other = nearest_way(catalogue, name, fixture, in_other, tolerance);
    if (other.worst() < best.worst())
      best = other;
  }
  add_derived_rows(best.by_rule, fixture, request.thickness, tolerance, best.rows);
  add_metal_row(catalogue, best.by_rule.rule.rule, asked, best.rows);
  // The row says it, and better.
  if (const auto mismatch =
          metal_mismatch(catalogue, best.by_rule.rule.rule, metal_of(asked)))
  {
    auto &cautions = best.by_rule.cautions;
    cautions.erase(std::remove(cautions.begin(), cautions.end(),
                               mismatch_text(best.by_rule.rule.rule, *mismatch) + "."),
                   cautions.end());
  }
  return best;
}

RuleComparison compare_with_rule(const RuleCatalogue &catalogue, const std::string &name,
                                 const Case &c, double tolerance)
{
  RuleRequest request;
  request.thickness  = c.coupon.thickness;
  request.yield      = c.material.flow.initial_stress();
  request.elongation = c.material.elongation;
  return compare_with_rule(catalogue, name, c.fixture, request, tolerance);
}
} // namespace throughbend
