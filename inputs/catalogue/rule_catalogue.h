#pragma once
// Published rules for fixtures as rows of data: what each says, for which metal and
// thickness, and how that is known. Reads the tables, shadows them by a user's own file,
// finds rules by name; dimensions are worked out in inputs/catalogue/fixture_by_rule.

#include "inputs/catalogue/catalogue_sheet.h"
#include "inputs/catalogue/rule_cells.h"

#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
enum class Jig
{
  plunger, ///< plunger between solid shoulders
  roller,  ///< plunger or former between rollers
  wrap     ///< bent about a mandrel by a roller that goes round it
};
std::string to_text(Jig jig);

/// In which units a row's figures are meant.
enum class RuleUnits
{
  any,    ///< only multiples of the thickness
  metric, ///< the standard's own millimetres, often rounded
  us
};

/// One row. A rule may have several: for fixed thicknesses, for others, in mm and in inch.
/// Letters: t coupon thickness, A plunger width, B nose radius, C opening between
/// shoulders, D radius of the die's bottom, e the elongation asked for.
struct FixtureRule
{
  std::string   rule;   ///< our name, as asme-ix-plunger-general
  std::string   family; ///< rules among which strength or elongation decides; may be empty
  Jig           jig   = Jig::plunger;
  RuleUnits     units = RuleUnits::any;
  std::string   standard, edition, clause, applies_to;
  RangeCell     thickness;  ///< of the coupon [mm]
  RangeCell     yield;      ///< of the base metal [MPa]
  RangeCell     elongation; ///< of the base metal [-]
  DimensionRule plunger_width, nose_radius, opening, bottom_radius; ///< A, B, C, D
  DimensionRule shoulder_radius; ///< of the edge, or of the rollers
  DimensionRule roller_gap;      ///< between mandrel and roller, wrap jig
  HowNotes      how;
  std::string   note;
  std::string   place; ///< `fixture_rules.csv:12`
};

class RuleCatalogue
{
public:
  explicit RuleCatalogue(std::vector<FixtureRule> rows) : rows_(std::move(rows)) {}

  const std::vector<FixtureRule> &rows() const { return rows_; }
  std::vector<std::string>        names() const;    ///< of rules, once each
  std::vector<std::string>        families() const; ///< once each
  bool                            has_rule(const std::string &name) const;
  bool                            has_family(const std::string &name) const;

  /// Rows of a rule. Throws InputError with the nearest name for what is neither a rule nor
  /// a family.
  std::vector<FixtureRule> rows_of(const std::string &rule) const;
  /// Names of a family's rules.
  std::vector<std::string> rules_of(const std::string &family) const;

private:
  std::vector<FixtureRule> rows_;
};

struct RuleReading
{
  std::vector<FixtureRule>    rows;
  std::vector<CatalogueFault> faults;
};
RuleReading read_fixture_rules(std::string_view text, const std::string &name);

/// What the program is built with.
const RuleCatalogue &built_in_rules();

/// The same with a user's own file, whose rules take the place of those with the same name.
/// An empty path is no file. Throws InputError with all faults of the file.
RuleCatalogue rules_with(const std::string &path);
} // namespace throughbend
