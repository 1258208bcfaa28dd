#include "inputs/catalogue/fixture_by_rule.h"

#include "inputs/catalogue/rule_choice.h"
#include "inputs/text/input_error.h"
#include "inputs/units/nominal_strain.h"
#include "inputs/units/shop_fraction.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
UnitSystem system_of(const FixtureRule &row)
{
  return row.units == RuleUnits::us ? UnitSystem::us : UnitSystem::metric;
}

/// Rows to be worked out, and for which thickness.
struct RowsForThickness
{
  std::vector<FixtureRule> rows;
  double                   thickness = 0; ///< [mm]
  std::string              caution;
};

RowsForThickness rows_for(const std::vector<FixtureRule> &rows, double thickness)
{
  RowsForThickness found{{}, thickness, ""};
  for (const FixtureRule &row : rows)
    if (row.thickness.takes(thickness))
      found.rows.push_back(row);
  // A row for this very thickness is what the standard prints first.
  std::stable_sort(found.rows.begin(), found.rows.end(),
                   [](const FixtureRule &a, const FixtureRule &b)
                   { return a.thickness.fixed() && !b.thickness.fixed(); });
  if (!found.rows.empty())
    return found;

  double nearest = 0;
  double away    = std::numeric_limits<double>::infinity();
  for (const FixtureRule &row : rows)
    for (const double limit : {row.thickness.range.low, row.thickness.range.high})
      if (std::abs(limit - thickness) < away)
      {
        away    = std::abs(limit - thickness);
        nearest = limit;
      }
  found                 = rows_for(rows, nearest);
  const UnitSystem unit = system_of(rows.front());
  found.caution =
      "The rule does not cover coupons of " + both_text(thickness, unit) + "; it ends at " +
      both_text(nearest, unit) +
      (thickness > nearest ? ". Machine the coupon to that thickness, or use another "
                             "rule; the figures are for "
                           : ". The figures are for ") +
      both_text(nearest, unit) + ".";
  return found;
}

/// Works out the dimensions of one row.
class RowDimensions
{
public:
  RowDimensions(const FixtureRule &row, double thickness, const RuleRequest &request)
  {
    result_.rule      = row;
    result_.thickness = thickness;
    known_["t"]       = thickness;
    if (request.elongation > 0)
      known_["t/e"] = thickness / request.elongation;
    former_ = request.former;
    if (!row.plunger_width.present() && former_ > 0)
      known_["A"] = result_.plunger_width = former_;
  }

  RuleFixture made()
  {
    const FixtureRule &row = result_.rule;
    set("A", "plunger width", row.plunger_width, result_.plunger_width);
    take_former();
    set("B", "nose radius", row.nose_radius, result_.nose_radius);
    set("C", "opening between shoulders", row.opening, result_.opening);
    set("D", "radius of the die's bottom", row.bottom_radius, result_.bottom_radius);
    set("shoulder_radius",
        row.jig == Jig::roller ? "radius of the rollers" : "radius of the shoulders",
        row.shoulder_radius, result_.shoulder_radius);
    set("roller_gap", "gap between mandrel and roller", row.roller_gap, result_.roller_gap);
    if (row.plunger_width.uses("t/e") && known_.count("t/e") == 0)
      result_.cautions.push_back(
          "The plunger depends on the required elongation, which is not given" +
          std::string(result_.plunger_width <= 0 ? "."
                      : former_ > 0              ? "; how narrow it may be is not known."
                                                 : "; its width is the largest allowed."));
    if (result_.plunger_width <= 0)
      result_.cautions.push_back("The rule takes the former from another standard; "
                                 "dimensions that depend on it are missing.");
    return result_;
  }

private:
  void set(const std::string &symbol, const std::string &words, const DimensionRule &rule,
           double &value)
  {
    if (!rule.present())
      return;
    const auto found = rule.value(known_);
    if (!found)
      return;
    value          = *found;
    known_[symbol] = *found;
    result_.dimensions.push_back({symbol, words, *found, rule.range(known_), rule.text,
                                  result_.rule.how.of(symbol)});
  }

  /// Where the rule takes more than one width, the others follow from the one that there
  /// is, or from the nearest that it takes.
  void take_former()
  {
    if (former_ <= 0 || result_.dimensions.empty())
      return;
    RuleDimension &width = result_.dimensions.back();
    if (!width.limited())
      return;
    width.value = std::min(std::max(former_, width.limits.low), width.limits.high);
    known_["A"] = result_.plunger_width = width.value;
  }

  RuleFixture result_;
  Lengths     known_;
  double      former_ = 0; ///< plunger width that there is [mm]; 0: none
};

/// A jig of fixed figures ends at a thickness that its rule need not name.
void add_fit_caution(RuleFixture &fixture)
{
  if (fixture.fits())
    return;
  const UnitSystem units = system_of(fixture.rule);
  fixture.cautions.insert(fixture.cautions.begin(),
                          "A coupon " + both_text(fixture.thickness, units) +
                              " thick does not fit the jig of this rule: from " +
                              both_text(fixture.pinch_thickness(), units) +
                              " on, a leg has no room between plunger and shoulder.");
}

/// From memory, and what every user of a rule is told.
void add_standing_cautions(RuleFixture &fixture)
{
  const FixtureRule &row = fixture.rule;
  std::string        recalled;
  for (const RuleDimension &dimension : fixture.dimensions)
    if (dimension.how == How::from_memory)
      recalled += (recalled.empty() ? "" : ", ") + dimension.words;
  if (!recalled.empty())
    fixture.cautions.push_back("From memory: " + recalled +
                               ". Confirm in the current edition of " + row.standard +
                               " before anything is cut.");
  if (!row.note.empty())
    fixture.cautions.push_back(row.note);
}

std::vector<RuleFixture> made_of(const std::vector<FixtureRule> &rows,
                                 const RuleRequest              &request,
                                 const std::vector<std::string> &cautions)
{
  const RowsForThickness   chosen = rows_for(rows, request.thickness);
  std::vector<RuleFixture> fixtures;
  for (const FixtureRule &row : chosen.rows)
  {
    RuleFixture fixture = RowDimensions(row, chosen.thickness, request).made();
    if (!chosen.caution.empty())
      fixture.cautions.insert(fixture.cautions.begin(), chosen.caution);
    fixture.cautions.insert(fixture.cautions.begin(), cautions.begin(), cautions.end());
    add_fit_caution(fixture);
    add_standing_cautions(fixture);
    fixtures.push_back(fixture);
  }
  return fixtures;
}
} // namespace

bool RuleDimension::limited() const
{
  return std::isfinite(limits.low) || std::isfinite(limits.high);
}

double RuleFixture::strain() const
{
  return plunger_width > 0 ? nominal_strain(plunger_width, thickness) : 0;
}

double RuleFixture::pinch_thickness() const
{
  return opening > 0 && plunger_width > 0 ? (opening - plunger_width) / 2 : 0;
}

double RuleFixture::clearance() const
{
  return pinch_thickness() > 0 ? pinch_thickness() - thickness : 0;
}

bool RuleFixture::fits() const
{
  constexpr double no_room = 1e-3; // a leg that just fills its room is pinched [mm]
  return pinch_thickness() <= 0 || clearance() > no_room;
}

Fixture RuleFixture::fixture() const
{
  Fixture made;
  made.rule                = rule.rule;
  made.plunger.width       = plunger_width;
  made.plunger.nose_radius = nose_radius;
  made.shoulders.kind =
      rule.jig == Jig::plunger ? ShoulderKind::solid : ShoulderKind::rollers;
  made.shoulders.radius  = shoulder_radius;
  made.shoulders.opening = opening;
  return made;
}

RuleMetal metal_of(const RuleRequest &request)
{
  return {request.yield, request.elongation,
          request.units.value_or(likely_system(request.thickness))};
}

std::vector<RuleFixture> fixtures_by_rule(const RuleCatalogue &catalogue,
                                          const std::string   &name,
                                          const RuleRequest   &request)
{
  if (!(request.thickness > 0))
    throw InputError("a rule needs the thickness of the coupon, as in --thickness \"3/8 "
                     "in\"");
  const RuleMetal  metal  = metal_of(request);
  const RuleChoice choice = choose_rule(catalogue, name, metal);
  return made_of(rows_in_units(catalogue, choice.rule, metal.units), request,
                 choice.cautions);
}

RuleFixture fixture_by_rule(const RuleCatalogue &catalogue, const std::string &name,
                            const RuleRequest &request)
{
  return fixtures_by_rule(catalogue, name, request).front();
}
} // namespace throughbend
