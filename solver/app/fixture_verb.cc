#include "inputs/coupon_rules.h"
#include "inputs/input_error.h"
#include "inputs/rule_text.h"
#include "solver/app/catalogue_verbs.h"
#include "solver/app/help.h"

namespace throughbend
{
namespace
{
/// The value of an option as a quantity, 0 where it is not given.
double quantity(const GivenWords &given, const std::string &option, UnitKind kind)
{
  if (!given.has(option))
    return 0;
  const Quantity read = read_quantity(given.value(option), kind);
  if (!read.ok())
    throw InputError("--" + option + " " + given.value(option) + ": " + read.error);
  if (!(read.value > 0))
    throw InputError("--" + option + " " + given.value(option) + ": must be above 0.");
  return read.value;
}

RuleRequest request_of(const GivenWords &given)
{
  if (!given.has("thickness"))
    throw InputError("fixture: for which coupon? Say --thickness, as in --thickness \"3/8 "
                     "in\".");
  RuleRequest request;
  request.thickness  = quantity(given, "thickness", UnitKind::length);
  request.yield      = quantity(given, "yield", UnitKind::stress);
  request.elongation = quantity(given, "elongation", UnitKind::ratio);
  request.former     = quantity(given, "former", UnitKind::length);
  if (given.has("units"))
    request.units = units_of(given);
  return request;
}

/// Rules of the same standard, which a maker of coupons wants beside the fixture's.
template <class Rule>
std::vector<Rule> of_standard(const std::vector<Rule> &rules, const std::string &standard)
{
  std::vector<Rule> found;
  for (const Rule &rule : rules)
    if (rule.standard == standard)
      found.push_back(rule);
  return found;
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  const GivenWords given = given_words(fixture_verb(), words);
  if (given.help)
    return show(verb_help(fixture_verb()));
  if (!given.has("rule"))
    throw InputError("fixture: by which rule? Say --rule NAME; throughbend rules lists "
                     "them.");
  const std::vector<RuleFixture> ways = fixtures_by_rule(
      rules_with(given.value("catalogue")), given.value("rule"), request_of(given));
  const std::string &standard = ways.front().rule.standard;
  return show(fixture_text(ways, of_standard(built_in_coupon_rules(), standard),
                           of_standard(built_in_surface_limits(), standard)));
}
} // namespace

Verb fixture_verb()
{
  return {
      "fixture",
      "",
      "plunger and shoulders by a published rule, with a drawing",
      "Prints the dimensions that a rule gives for a coupon, in both families of units, "
      "with clause, clearance, cautions and how the figures were obtained: throughbend "
      "fixture --rule asme-ix-plunger-general --thickness \"3/8 in\".",
      {{"rule", "NAME", "a rule or a family of rules; throughbend rules lists them", {}},
       {"thickness", "LENGTH", "of the coupon, as 10 mm or \"3/8 in\"", {}},
       {"yield", "STRESS", "of the base metal, where the rule goes by it", {}},
       {"elongation", "SHARE", "of the base metal, where the rule goes by it: 18 %", {}},
       {"former", "LENGTH", "width of the plunger, where the rule leaves it open", {}},
       {"catalogue",
        "FILE",
        "your own fixture rules, with the columns of the built-in file",
        {}},
       units_option("the rule's figures are wanted in")},
      CaseKeys::none,
      0,
      carry_out};
}
} // namespace throughbend
