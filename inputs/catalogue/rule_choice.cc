#include "inputs/catalogue/rule_choice.h"

#include "inputs/text/input_error.h"
#include "inputs/units/display_units.h"

#include <algorithm>

namespace throughbend
{
namespace
{
/// A property of the metal as a rule sees it.
struct Property
{
  UnitKind    kind;
  double      value;
  RangeCell   range;
  std::string word;
  std::string option;

  bool asked() const { return range.given(); }
  bool known() const { return value > 0; }
};

std::vector<Property> properties(const FixtureRule &row, const RuleMetal &metal)
{
  return {{UnitKind::stress, metal.yield, row.yield, "yield strength",
           "material.yield of a case, or --yield \"345 MPa\""},
          {UnitKind::ratio, metal.elongation, row.elongation, "elongation",
           "material.elongation of a case, or --elongation \"22 %\""}};
}

/// Whether any of the rows takes the metal.
bool takes(const std::vector<FixtureRule> &rows, const RuleMetal &metal)
{
  return std::any_of(rows.begin(), rows.end(),
                     [&](const FixtureRule &row)
                     {
                       for (const Property &p : properties(row, metal))
                         if (p.asked() && p.known() && !p.range.takes(p.value))
                           return false;
                       return true;
                     });
}

bool asks(const std::vector<FixtureRule> &rows)
{
  return rows.front().yield.given() || rows.front().elongation.given();
}

std::string listed(const std::vector<std::string> &names)
{
  std::string list;
  for (const std::string &name : names)
    list += (list.empty() ? "" : ", ") + name;
  return list;
}

std::string shown(double value, UnitKind kind, UnitSystem first)
{
  const bool us = first == UnitSystem::us;
  return kind == UnitKind::ratio
             ? percent_text(value)
             : stress_text(value, first) + " (" +
                   stress_text(value, us ? UnitSystem::metric : UnitSystem::us) + ")";
}

RuleChoice choose_in_family(const RuleCatalogue &catalogue, const std::string &family,
                            const RuleMetal &metal)
{
  RuleChoice               choice;
  std::vector<std::string> by_group;
  for (const std::string &rule : catalogue.rules_of(family))
  {
    const std::vector<FixtureRule> rows = rows_in_units(catalogue, rule, metal.units);
    if (!asks(rows))
    {
      by_group.push_back(rule);
      continue;
    }
    for (const Property &p : properties(rows.front(), metal))
      if (p.asked() && !p.known())
        throw InputError(
            "in the family " + family + " the " + p.word +
            " of the base metal decides, which is not given; give it (" + p.option +
            "), or name one of its rules: " + listed(catalogue.rules_of(family)));
    if (choice.rule.empty() && takes(rows, metal))
      choice.rule = rule;
  }
  if (choice.rule.empty())
    throw InputError(
        "no rule of the family " + family +
        " is for this metal; name one of its rules: " + listed(catalogue.rules_of(family)));
  choice.cautions.push_back("Chosen out of the family " + family + ": " + choice.rule +
                            ".");
  if (!by_group.empty())
    choice.cautions.push_back("Some groups of metals have rules of their own, which no "
                              "strength or elongation can tell: " +
                              listed(by_group) + ".");
  return choice;
}
} // namespace

std::vector<FixtureRule> rows_in_units(const RuleCatalogue &catalogue,
                                       const std::string &rule, UnitSystem units)
{
  const std::vector<FixtureRule> rows = catalogue.rows_of(rule);
  const RuleUnits mine = units == UnitSystem::us ? RuleUnits::us : RuleUnits::metric;
  std::vector<FixtureRule> fitting;
  for (const FixtureRule &row : rows)
    if (row.units == RuleUnits::any || row.units == mine)
      fitting.push_back(row);
  return fitting.empty() ? rows : fitting;
}

bool goes_by_group(const FixtureRule &rule)
{
  return !rule.family.empty() && !rule.yield.given() && !rule.elongation.given();
}

std::optional<MetalMismatch> metal_mismatch(const RuleCatalogue &catalogue,
                                            const std::string &rule, const RuleMetal &metal)
{
  const std::vector<FixtureRule> rows = rows_in_units(catalogue, rule, metal.units);
  if (rows.empty() || takes(rows, metal))
    return std::nullopt;
  MetalMismatch mismatch;
  for (const Property &p : properties(rows.front(), metal))
    if (p.asked() && p.known() && !p.range.takes(p.value))
    {
      mismatch.kind  = p.kind;
      mismatch.value = p.value;
      mismatch.range = p.range.range;
      mismatch.takes = p.range.both_texts();
      mismatch.units = metal.units;
    }
  if (!rows.front().family.empty())
    for (const std::string &other : catalogue.rules_of(rows.front().family))
      if (const auto others = rows_in_units(catalogue, other, metal.units);
          mismatch.better.empty() && asks(others) && takes(others, metal))
        mismatch.better = other;
  return mismatch;
}

std::string mismatch_text(const std::string &rule, const MetalMismatch &mismatch)
{
  const bool is_yield = mismatch.kind == UnitKind::stress;
  return rule + " is not for " + (is_yield ? "a yield strength of " : "an elongation of ") +
         shown(mismatch.value, mismatch.kind, mismatch.units) + ": it takes " +
         mismatch.takes +
         (mismatch.better.empty() ? ""
                                  : "; " + mismatch.better + " asks for another plunger");
}

RuleChoice choose_rule(const RuleCatalogue &catalogue, const std::string &name,
                       const RuleMetal &metal)
{
  const std::vector<FixtureRule> rows = rows_in_units(catalogue, name, metal.units);
  if (rows.empty())
    return choose_in_family(catalogue, name, metal);
  RuleChoice choice{name, {}};
  if (const auto mismatch = metal_mismatch(catalogue, name, metal))
    choice.cautions.push_back(mismatch_text(name, *mismatch) + ".");
  else
    for (const Property &p : properties(rows.front(), metal))
      if (p.asked() && !p.known())
        choice.cautions.push_back("The rule is for a metal with " + p.word + " " +
                                  p.range.text + "; yours is not given.");
  return choice;
}
} // namespace throughbend
