#pragma once
// The dimensions that a published rule gives for one coupon, and how far a user's fixture
// is from them. An aid to look things up: the standard itself, in its current edition,
// governs.

#include "inputs/case/case.h"
#include "inputs/catalogue/rule_catalogue.h"
#include "inputs/catalogue/rule_choice.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// What a rule is asked about. A 0 means: not known.
struct RuleRequest
{
  double thickness  = 0; ///< of the coupon [mm], > 0
  double yield      = 0; ///< of the base metal [MPa]
  double elongation = 0; ///< of the base metal [-]
  /// Plunger width, where the rule leaves it open or takes more than one [mm].
  double                    former = 0;
  std::optional<UnitSystem> units; ///< of the rule's figures; none: by the thickness
};

/// Its metal, and the units in which the rule is read.
RuleMetal metal_of(const RuleRequest &request);

/// One dimension by a rule.
struct RuleDimension
{
  std::string symbol; ///< column of the catalogue: A, B, C, D, shoulder_radius, roller_gap
  std::string words;  ///< `plunger width`
  double      value = 0; ///< [mm]
  Range       limits;    ///< what the rule also takes [mm]; without limits: the value alone
  std::string as_written; ///< `6t + 1/8 in`
  How         how = How::from_memory;

  bool limited() const; ///< whether there are limits
};

/// A fixture by a rule. Lengths [mm]; a 0 means that the rule does not say.
struct RuleFixture
{
  FixtureRule rule;                ///< the row it comes from
  double      thickness       = 0; ///< of the coupon the figures are for
  double      plunger_width   = 0; ///< A
  double      nose_radius     = 0; ///< B
  double      opening         = 0; ///< C, between the shoulders
  double      bottom_radius   = 0; ///< D, of the die's bottom
  double      shoulder_radius = 0; ///< of the edge, or of the rollers
  double      roller_gap      = 0; ///< between mandrel and roller, wrap jig

  std::vector<RuleDimension> dimensions; ///< those the rule gives, in the order above
  std::vector<std::string>   cautions;   ///< to be read before anything is cut

  double strain() const;          ///< nominal, of the outer fibre [-]
  double clearance() const;       ///< per side between plunger, leg and shoulder [mm]
  double pinch_thickness() const; ///< (C - A) / 2 [mm]
  bool   fits() const; ///< each leg has room beside the plunger, as far as the rule says
  /// What throughbend bends with: shoulders are rollers in a roller jig; no frame.
  Fixture fixture() const;
};

/// All ways the rule leaves for this coupon, the first one preferred: a row made for this
/// very thickness, then formulas. `name` is a rule or a family; in a family, yield or
/// elongation decides. Throws InputError for an unknown name and where the choice needs
/// what is not given.
std::vector<RuleFixture> fixtures_by_rule(const RuleCatalogue &catalogue,
                                          const std::string   &name,
                                          const RuleRequest   &request);

/// The preferred one.
RuleFixture fixture_by_rule(const RuleCatalogue &catalogue, const std::string &name,
                            const RuleRequest &request);

enum class Agreement
{
  ok,    ///< within the tolerance, or within the rule's limits
  close, ///< within twice the tolerance
  no
};
std::string to_text(Agreement agreement);

/// One line of a comparison.
struct ComparisonRow
{
  std::string words; ///< `plunger width`
  std::string key;   ///< `plunger.width`, empty if it stands in no case
  UnitKind    kind       = UnitKind::length;
  double      ours       = 0; ///< [mm, MPa, -]
  double      rules      = 0; ///< the rule's figure, or its nearest limit
  double      difference = 0; ///< ours - rules; 0 within the rule's limits
  Agreement   agreement  = Agreement::no;
  std::string remark; ///< what the rule says, or which rule asks for another
  How         how = How::from_memory;
};

struct RuleComparison
{
  RuleFixture                by_rule; ///< the way of the rule that is nearest to ours
  std::vector<ComparisonRow> rows;
  double                     tolerance = 0; ///< [mm]

  Agreement worst() const;
};

/// Half a millimetre: rounding of inches to millimetres, and what a shop's fixture wears.
/// Common practice, no source; the rules' own tolerances are not in the catalogue.
constexpr double rule_tolerance = 0.5; // [mm]

/// The user's fixture against a rule, dimension by dimension, and the metal against what
/// the rule is for. Where the rule leaves the former open, ours is taken.
RuleComparison compare_with_rule(const RuleCatalogue &catalogue, const std::string &name,
                                 const Fixture &fixture, const RuleRequest &request,
                                 double tolerance = rule_tolerance);

/// The same with coupon and metal of a case.
RuleComparison compare_with_rule(const RuleCatalogue &catalogue, const std::string &name,
                                 const Case &c, double tolerance = rule_tolerance);
} // namespace throughbend
