#pragma once
// Which rule of a family a metal falls under, and whether a rule that was named is the one
// for this metal. A higher-strength grade on the small plunger is found out here.

#include "inputs/catalogue/rule_catalogue.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// Why a rule is not the one for a metal.
struct MetalMismatch
{
  UnitKind    kind  = UnitKind::stress;   ///< stress: the yield; ratio: the elongation
  double      value = 0;                  ///< the metal's [MPa] or [-]
  Range       range;                      ///< the rule's
  std::string takes;                      ///< the same as printed: `<= 50 ksi (<= 345 MPa)`
  UnitSystem  units = UnitSystem::metric; ///< in which the metal is told first
  std::string better; ///< rule of the same family that asks for it; or empty
};

/// The metal that a rule is asked about, and the units in which the rule is read: the
/// limits of the two differ by rounding.
struct RuleMetal
{
  double     yield      = 0; ///< [MPa]; 0 = not known
  double     elongation = 0; ///< [-]; 0 = not known
  UnitSystem units      = UnitSystem::metric;
};

/// Rows of a rule in these units; all if it has none in them.
std::vector<FixtureRule> rows_in_units(const RuleCatalogue &catalogue,
                                       const std::string &rule, UnitSystem units);

/// Whether a rule of a family asks neither for yield nor elongation: it is then for groups
/// of metals, as by a code's P-numbers, which nothing here knows.
bool goes_by_group(const FixtureRule &rule);

/// What is wrong with a rule for a metal; what is not known is never wrong.
std::optional<MetalMismatch> metal_mismatch(const RuleCatalogue &catalogue,
                                            const std::string   &rule,
                                            const RuleMetal     &metal);
std::string mismatch_text(const std::string &rule, const MetalMismatch &mismatch);

struct RuleChoice
{
  std::string              rule; ///< of which the rows are to be used
  std::vector<std::string> cautions;
};

/// A rule's name is kept, with a caution where the metal is not the one it is for; in a
/// family, yield or elongation decides. Throws InputError where that is not
/// known.
RuleChoice choose_rule(const RuleCatalogue &catalogue, const std::string &name,
                       const RuleMetal &metal);
} // namespace throughbend
