#include "inputs/catalogue/rule_catalogue.h"

#include "inputs/catalogue/catalogue_texts.h"
#include "inputs/catalogue/rule_pairs.h"
#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"

#include <algorithm>
#include <utility>

namespace throughbend
{
namespace
{
const CatalogueColumns &columns()
{
  static const CatalogueColumns known = {{"rule", "family", "jig", "units", "standard",
                                          "edition", "clause", "applies_to", "thickness",
                                          "yield", "elongation", "A", "B", "C", "D",
                                          "shoulder_radius", "roller_gap", "how", "note"},
                                         {"rule", "jig", "standard", "how"}};
  return known;
}

void add_once(std::vector<std::string> &names, const std::string &name)
{
  if (!name.empty() && std::find(names.begin(), names.end(), name) == names.end())
    names.push_back(name);
}

/// Turns the cells of one row into a rule and gathers what is wrong with them.
class RowReading
{
public:
  RowReading(const CatalogueRow &row, std::vector<CatalogueFault> &faults)
      : row_(row), faults_(faults)
  {
  }

  FixtureRule rule()
  {
    FixtureRule rule;
    rule.place      = row_.place;
    rule.rule       = name("rule");
    rule.family     = name("family");
    rule.standard   = row_.cell("standard");
    rule.edition    = row_.cell("edition");
    rule.clause     = row_.cell("clause");
    rule.applies_to = row_.cell("applies_to");
    rule.note       = row_.cell("note");
    rule.jig        = word<Jig>(
        "jig", {{"plunger", Jig::plunger}, {"roller", Jig::roller}, {"wrap", Jig::wrap}});
    rule.units = word<RuleUnits>(
        "units",
        {{"", RuleUnits::any}, {"metric", RuleUnits::metric}, {"us", RuleUnits::us}});
    rule.thickness       = range("thickness", UnitKind::length);
    rule.yield           = range("yield", UnitKind::stress);
    rule.elongation      = range("elongation", UnitKind::ratio);
    rule.plunger_width   = dimension("A", {"t", "t/e"});
    rule.nose_radius     = dimension("B", {"A", "t"});
    rule.opening         = dimension("C", {"A", "B", "t"});
    rule.bottom_radius   = dimension("D", {"C", "t"});
    rule.shoulder_radius = dimension("shoulder_radius", {"t"});
    rule.roller_gap      = dimension("roller_gap", {"t"});
    rule.how             = read_how(row_.cell("how"));
    refuse("how", rule.how.error);
    for (const auto &[column, how] : rule.how.columns)
      if (std::find(columns().known.begin(), columns().known.end(), column) ==
          columns().known.end())
        refuse("how", "names the column '" + column + "', which there is not");
    if (!rule.plunger_width.present() && !rule.nose_radius.present() &&
        !rule.opening.present())
      refuse("A", "A, B and C are all empty, so that the row rules nothing");
    return rule;
  }

private:
  void refuse(const std::string &column, const std::string &problem)
  {
    if (!problem.empty())
      faults_.push_back(cell_fault(row_, column, problem));
  }

  std::string name(const std::string &column)
  {
    const std::string &cell = row_.cell(column);
    if (!cell.empty() && !is_catalogue_name(cell))
      refuse(column, "is no name; use a-z, 0-9 and single dashes, as in yard-plunger");
    return cell;
  }

  template <class Word>
  Word word(const std::string &column, const std::vector<std::pair<std::string, Word>> &all)
  {
    std::string list;
    for (const auto &[text, value] : all)
    {
      if (text == row_.cell(column))
        return value;
      list += (list.empty() ? "" : ", ") + (text.empty() ? std::string("empty") : text);
    }
    refuse(column, "is not one of: " + list);
    return all.front().second;
  }

  RangeCell range(const std::string &column, UnitKind kind)
  {
    const RangeCell cell = read_range(row_.cell(column), kind);
    refuse(column, cell.error);
    return cell;
  }

  DimensionRule dimension(const std::string              &column,
                          const std::vector<std::string> &letters)
  {
    const DimensionRule cell = read_dimension(row_.cell(column), letters);
    refuse(column, cell.error);
    return cell;
  }

  const CatalogueRow          &row_;
  std::vector<CatalogueFault> &faults_;
};

RuleReading from_sheet(CatalogueSheet sheet)
{
  RuleReading reading;
  reading.faults = std::move(sheet.faults);
  for (const CatalogueRow &row : sheet.rows)
  {
    const std::size_t before = reading.faults.size();
    const FixtureRule rule   = RowReading(row, reading.faults).rule();
    if (reading.faults.size() == before)
      reading.rows.push_back(rule);
  }
  pair_families(reading.rows, {&FixtureRule::thickness, &FixtureRule::yield});
  return reading;
}
} // namespace

std::string to_text(Jig jig)
{
  switch (jig)
  {
  case Jig::plunger:
    return "plunger jig";
  case Jig::roller:
    return "roller jig";
  case Jig::wrap:
    return "wrap-around jig";
  }
  return "";
}

std::vector<std::string> RuleCatalogue::names() const
{
  std::vector<std::string> names;
  for (const FixtureRule &row : rows_)
    add_once(names, row.rule);
  return names;
}

std::vector<std::string> RuleCatalogue::families() const
{
  std::vector<std::string> names;
  for (const FixtureRule &row : rows_)
    add_once(names, row.family);
  return names;
}

bool RuleCatalogue::has_rule(const std::string &name) const
{
  return std::any_of(rows_.begin(), rows_.end(),
                     [&](const FixtureRule &row) { return row.rule == name; });
}

bool RuleCatalogue::has_family(const std::string &name) const
{
  return !name.empty() &&
         std::any_of(rows_.begin(), rows_.end(),
                     [&](const FixtureRule &row) { return row.family == name; });
}

std::vector<FixtureRule> RuleCatalogue::rows_of(const std::string &rule) const
{
  std::vector<FixtureRule> found;
  for (const FixtureRule &row : rows_)
    if (row.rule == rule)
      found.push_back(row);
  if (found.empty() && !has_family(rule))
  {
    std::vector<std::string> known = names();
    for (const std::string &family : families())
      known.push_back(family);
    const auto nearest = nearest_name(rule, known);
    throw InputError(
        "there is no rule '" + clipped(rule, 60) + "'; " +
        (nearest ? "did you mean '" + *nearest + "'?" : "throughbend rules lists all"));
  }
  return found;
}

std::vector<std::string> RuleCatalogue::rules_of(const std::string &family) const
{
  std::vector<std::string> names;
  for (const FixtureRule &row : rows_)
    if (row.family == family)
      add_once(names, row.rule);
  return names;
}

RuleReading read_fixture_rules(std::string_view text, const std::string &name)
{
  return from_sheet(read_sheet(text, name, columns()));
}

const RuleCatalogue &built_in_rules()
{
  static const RuleCatalogue catalogue(
      read_fixture_rules(fixture_rules_csv(), "fixture_rules.csv").rows);
  return catalogue;
}

RuleCatalogue rules_with(const std::string &path)
{
  if (path.empty())
    return built_in_rules();
  const RuleReading own = from_sheet(read_sheet_file(path, columns()));
  if (!own.faults.empty())
    throw InputError(fault_list(own.faults));
  return RuleCatalogue(shadowed(built_in_rules().rows(), own.rows,
                                [](const FixtureRule &row) { return row.rule; }));
}
} // namespace throughbend
