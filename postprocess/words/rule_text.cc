#include "postprocess/words/rule_text.h"

#include "inputs/text/plain_text.h"
#include "inputs/text/text_columns.h"
#include "inputs/units/display_units.h"
#include "inputs/units/shop_fraction.h"

#include <cmath>

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

UnitSystem system_of(const FixtureRule &rule, double thickness)
{
  if (rule.units == RuleUnits::any)
    return likely_system(thickness);
  return rule.units == RuleUnits::us ? UnitSystem::us : UnitSystem::metric;
}

std::string source_of(const std::string &standard, const std::string &edition,
                      const std::string &clause)
{
  return standard + (clause.empty() ? "" : ", " + clause) +
         (edition.empty() ? "" : " (edition: " + edition + ")");
}

/// `up to 60 mm`, `above 60 mm, up to 70 mm`; empty without limits.
std::string limits_text(const RuleDimension &dimension, UnitSystem units)
{
  const Range &limits = dimension.limits;
  std::string  text;
  if (std::isfinite(limits.low))
    text = (limits.low_edge == Edge::open ? "above " : "at least ") +
           both_text(limits.low, units);
  if (std::isfinite(limits.high))
    text += (text.empty() ? "" : ", ") +
            std::string(limits.high_edge == Edge::open ? "below " : "up to ") +
            both_text(limits.high, units);
  return text;
}

std::string dimension_lines(const RuleFixture &fixture)
{
  const UnitSystem units = system_of(fixture.rule, fixture.thickness);
  TextColumns      table({"", "dimension", "inch", "mm", "written", "how"});
  for (const RuleDimension &dimension : fixture.dimensions)
    table.add({dimension.symbol.size() == 1 ? dimension.symbol : "", dimension.words,
               inch_text(dimension.value), millimetre_text(dimension.value),
               dimension.as_written, to_text(dimension.how)});
  std::string text = table.text();
  for (const RuleDimension &dimension : fixture.dimensions)
    if (dimension.limited())
      text += "  " + dimension.words + ": " + limits_text(dimension, units) + "\n";
  return text;
}

std::string derived_lines(const RuleFixture &fixture)
{
  const UnitSystem units = system_of(fixture.rule, fixture.thickness);
  std::string      text;
  if (fixture.strain() > 0)
    text += "  nominal outer strain t / (A + t): " + percent_text(fixture.strain()) + "\n";
  if (fixture.pinch_thickness() > 0)
    text +=
        "  clearance per side (C - A) / 2 - t: " + both_text(fixture.clearance(), units) +
        (fixture.fits() ? "" : ": the coupon DOES NOT FIT") +
        "\n  a leg is pinched from a thickness of (C - A) / 2 = " +
        both_text(fixture.pinch_thickness(), units) + "\n";
  return text;
}

std::string coupon_lines(const std::string &standard, const std::vector<CouponRule> &rules,
                         const RuleFixture &fixture)
{
  CouponRequest request;
  request.thickness      = fixture.thickness;
  request.opening        = fixture.opening;
  request.radius         = fixture.shoulder_radius;
  const UnitSystem units = system_of(fixture.rule, fixture.thickness);
  const auto       mine  = units == UnitSystem::us ? RuleUnits::us : RuleUnits::metric;
  std::string      text;
  for (const CouponRule &rule : rules)
  {
    if (rule.standard != standard || (rule.units != RuleUnits::any && rule.units != mine) ||
        (rule.for_thickness.given() && !rule.for_thickness.takes(fixture.thickness)))
      continue;
    std::string words = rule.rule;
    for (const RangeCell *range : {&rule.for_plate, &rule.for_pipe})
      if (range->given())
        words += (range == &rule.for_plate ? ", plate " : ", pipe ") + range->text;
    const auto add =
        [&](const std::string &name, const DimensionRule &dimension, const char *column)
    {
      if (dimension.present())
        words += "; " + name + " " + dimension.text +
                 (rule.how.of(column) == How::from_memory ? " (from memory)" : "");
    };
    add("length", rule.length, "length");
    add("width", rule.width, "width");
    add("thickness", rule.thickness, "thickness");
    add("edge radius", rule.edge_radius, "edge_radius");
    text += wrapped(words, "  ", columns);
  }
  return text.empty() ? ""
                      : "Coupon (t its thickness, T plate or wall, P pipe, C opening, R "
                        "shoulder radius)\n" +
                            text;
}

std::string limit_lines(const std::string               &standard,
                        const std::vector<SurfaceLimit> &limits, UnitSystem units)
{
  const auto  mine = units == UnitSystem::us ? RuleUnits::us : RuleUnits::metric;
  std::string text;
  for (const SurfaceLimit &limit : limits)
  {
    if (limit.standard != standard ||
        (limit.units != RuleUnits::any && limit.units != mine))
      continue;
    std::string words = "single " + limit.single.text;
    if (limit.sum.present())
      words += "; sum of those " + limit.counted_from.text + ": " + limit.sum.text;
    if (limit.corner_crack.present())
      words += "; corner crack " + limit.corner_crack.text;
    if (limit.corner_crack_by_flaw.present())
      words +=
          " (" + limit.corner_crack_by_flaw.text + " where slag or lack of fusion shows)";
    text +=
        wrapped(words + "; " + to_text(limit.how.row) + ". " + limit.note, "  ", columns);
  }
  return text.empty() ? "" : "Open defects on the convex surface\n" + text;
}

std::string value_of(const ComparisonRow &row, double value, UnitSystem units)
{
  if (row.kind == UnitKind::ratio)
    return percent_text(value);
  if (row.kind == UnitKind::stress)
    return stress_text(value, units);
  return units == UnitSystem::us ? inch_text(value) : millimetre_text(value);
}
} // namespace

std::string fixture_text(const std::vector<RuleFixture>  &ways,
                         const std::vector<CouponRule>   &coupons,
                         const std::vector<SurfaceLimit> &limits)
{
  if (ways.empty())
    return "";
  const RuleFixture &first = ways.front();
  const FixtureRule &rule  = first.rule;
  const UnitSystem   units = system_of(rule, first.thickness);
  std::string        text  = rule.rule + ": " + to_text(rule.jig) + "\n";
  text += wrapped(source_of(rule.standard, rule.edition, rule.clause), "  ", columns);
  if (!rule.applies_to.empty())
    text += wrapped("for " + rule.applies_to, "  ", columns);
  text += "  coupon t = " + both_text(first.thickness, units) + "\n\n";
  text += dimension_lines(first);
  if (!rule.plunger_width.present() && first.plunger_width > 0)
    text += "  plunger width A = " + both_text(first.plunger_width, units) + ", as given\n";
  text += derived_lines(first);
  for (std::size_t i = 1; i < ways.size(); ++i)
    text +=
        "\nThe same rule also allows\n" + dimension_lines(ways[i]) + derived_lines(ways[i]);
  if (const std::string lines = coupon_lines(rule.standard, coupons, first); !lines.empty())
    text += "\n" + lines;
  if (const std::string lines = limit_lines(rule.standard, limits, units); !lines.empty())
    text += "\n" + lines;
  text += "\nCautions\n";
  for (const std::string &caution : first.cautions)
    text += wrapped(caution, "  ", columns);
  return text +
         wrapped(
             "The current edition of the standard governs; this is an aid to look it up. "
             "A coupon can fly out: guard the jig, wear eye protection, and keep within "
             "the limits of the jack.",
             "  ", columns);
}

std::string comparison_text(const RuleComparison &comparison, UnitSystem units)
{
  const FixtureRule &rule = comparison.by_rule.rule;
  std::string        text = wrapped("Against " + rule.rule + ", " +
                                        source_of(rule.standard, rule.edition, rule.clause),
                                    "", columns);
  TextColumns        table({"", "ours", "rule", "difference", "", ""});
  std::string        remarks;
  for (const ComparisonRow &row : comparison.rows)
  {
    const bool dimension = row.kind == UnitKind::length;
    table.add({row.words, value_of(row, row.ours, units), value_of(row, row.rules, units),
               value_of(row, row.difference, units), to_text(row.agreement),
               dimension ? row.remark : ""});
    if (!dimension && !row.remark.empty())
      remarks += wrapped(row.remark + ".", "  ", columns);
  }
  text += table.text() + remarks;
  for (const std::string &caution : comparison.by_rule.cautions)
    text += wrapped(caution, "  ", columns);
  return text + "  ok: within " +
         (units == UnitSystem::us ? inch_text(comparison.tolerance)
                                  : millimetre_text(comparison.tolerance)) +
         " or the rule's limits; close: within twice that.\n";
}
} // namespace throughbend
