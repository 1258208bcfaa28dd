#include "inputs/catalogue/coupon_rules.h"
#include "inputs/keys/case_reader.h"
#include "inputs/keys/option_table.h"
#include "inputs/text/input_error.h"
#include "inputs/text/own_file.h"
#include "inputs/text/whole_file.h"
#include "inputs/units/shop_fraction.h"
#include "postprocess/app/catalogue_verbs.h"
#include "postprocess/app/help.h"
#include "postprocess/app/today.h"
#include "postprocess/app/version.h"
#include "postprocess/drawing/fixture_drawing.h"
#include "postprocess/words/rule_text.h"

#include <cmath>
#include <stdexcept>

namespace throughbend
{
namespace
{
/// The value of an option as a quantity, 0 where it is not given. It has the range of that
/// key of a case.
double quantity(const VerbArguments &given, const std::string &option, UnitKind kind,
                const char *key)
{
  if (!given.has(option))
    return 0;
  const Quantity read = read_quantity(given.value(option), kind);
  if (!read.ok())
    throw InputError("--" + option + " " + given.value(option) + ": " + read.error);
  if (!(read.value > 0))
    throw InputError("--" + option + " " + given.value(option) + ": must be above 0.");
  const Range &range = std::get<NumberSlot>(find_option(key)->slot).range;
  if (!range.contains(read.value))
    throw InputError("--" + option + " " + given.value(option) +
                     ": out of range; allowed: " + range.text(kind, read.system) + ", as " +
                     key + " of a case.");
  return read.value;
}

RuleRequest request_of(const VerbArguments &given)
{
  if (!given.has("thickness"))
    throw InputError("fixture: for which coupon? Give --thickness, for example "
                     "--thickness \"3/8 in\".");
  RuleRequest request;
  request.thickness = quantity(given, "thickness", UnitKind::length, "coupon.thickness");
  request.yield     = quantity(given, "yield", UnitKind::stress, "material.yield");
  request.elongation =
      quantity(given, "elongation", UnitKind::ratio, "material.elongation");
  request.former = quantity(given, "former", UnitKind::length, "plunger.width");
  if (given.has("units"))
    request.units = units_of(given);
  return request;
}

/// A plunger that was asked for, where the rule does not take its width.
void add_former_caution(const double former, RuleFixture &way)
{
  if (former <= 0 || way.plunger_width <= 0 ||
      std::abs(way.plunger_width - former) < 1e-6 * former)
    return;
  const UnitSystem units =
      way.rule.units == RuleUnits::us ? UnitSystem::us : UnitSystem::metric;
  way.cautions.insert(way.cautions.begin(),
                      "A plunger " + both_text(former, units) +
                          " wide is not by this rule; the figures are for one of " +
                          both_text(way.plunger_width, units) + ".");
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

std::string rule_line(const FixtureRule &rule)
{
  return rule.rule + ": " + rule.standard + ", " + rule.clause + "; figures " +
         to_text(rule.how.row);
}

/// What the rule also takes, where it says so.
std::vector<SizeLimits> rule_limits(const RuleFixture &way)
{
  std::vector<SizeLimits> limits;
  for (const RuleDimension &dimension : way.dimensions)
  {
    const std::string letter =
        dimension.symbol == "shoulder_radius" ? "E" : dimension.symbol;
    if (dimension.limited() && letter.size() == 1)
      limits.push_back({letter, LimitKind::by_rule, dimension.limits, "by the rule"});
  }
  return limits;
}

/// The fixture as the rule gives it, with the coupon it is for.
DrawingSubject subject_by_rule(const RuleFixture &way)
{
  DrawingSubject subject;
  subject.fixture           = way.fixture();
  subject.coupon.thickness  = way.thickness;
  subject.die_bottom_radius = way.bottom_radius;
  subject.title             = "Guided-bend fixture by a published rule";
  subject.rule              = rule_line(way.rule);
  subject.rule_used         = way.rule.rule;
  subject.limits            = rule_limits(way);
  subject.cautions          = way.cautions;
  return subject;
}

DrawingSubject subject_by_case(const Case &c)
{
  DrawingSubject subject;
  subject.fixture = c.fixture;
  subject.coupon  = c.coupon;
  subject.title   = c.title.empty() ? "Guided-bend fixture" : c.title;
  if (!c.fixture.rule.empty())
  {
    subject.rule      = "to be compared with " + c.fixture.rule;
    subject.rule_used = "none, compare with " + c.fixture.rule;
  }
  return subject;
}

/// With the mark by which the program knows its own file, after the first line.
std::string marked(std::string xml, std::string_view mark)
{
  return xml.insert(xml.find('\n') + 1, std::string(mark) + "\n");
}

/// Writes the file that an option names, if it was given, and says so.
template <class Text>
std::string written(const VerbArguments &given, const std::string &option, const Text &text)
{
  if (!given.has(option))
    return "";
  write_named_file("--" + option, given.value(option), text());
  return option + ": " + given.value(option) + "\n";
}

void check_names_differ(const VerbArguments &given, const std::vector<std::string> &options)
{
  for (std::size_t i = 0; i < options.size(); ++i)
    for (std::size_t k = 0; k < i; ++k)
      if (given.has(options[i]) && given.has(options[k]) &&
          given.value(options[i]) == given.value(options[k]))
        throw InputError("--" + options[k] + " and --" + options[i] +
                         " name the same file. Choose two names.");
}

std::string draw(const VerbArguments &given, DrawingSubject subject)
{
  const ForeignFile foreign =
      given.has("overwrite") ? ForeignFile::replace : ForeignFile::keep;
  if (given.has("drawing"))
    check_place("drawing", given.value("drawing"), drawing_mark, foreign);
  if (given.has("dxf"))
    check_place("dxf", given.value("dxf"), drawing_mark, foreign);
  if (given.has("profiles"))
    check_place("profiles", given.value("profiles"), profile_mark, foreign);
  check_names_differ(given, {"drawing", "dxf", "profiles"});
  subject.program = "throughbend " + program_version();
  subject.date    = today();
  if (given.has("units"))
    subject.units = units_of(given);
  return written(given, "drawing",
                 [&] { return marked(fixture_drawing(subject), drawing_mark); }) +
         written(given, "dxf", [&] { return fixture_cad_file(subject); }) +
         written(given, "profiles",
                 [&] { return marked(fixture_profile_file(subject), profile_mark); });
}

ExitCode by_rule(const VerbArguments &given)
{
  if (!given.has("rule"))
    throw InputError("fixture: by which rule, or of which case? Say --rule NAME "
                     "(throughbend rules lists them) or name a case file.");
  const RuleRequest        request = request_of(given);
  std::vector<RuleFixture> ways =
      fixtures_by_rule(rules_with(given.value("catalogue")), given.value("rule"), request);
  for (RuleFixture &way : ways)
    add_former_caution(request.former, way);
  const std::string &standard = ways.front().rule.standard;
  return show(fixture_text(ways, of_standard(built_in_coupon_rules(), standard),
                           of_standard(built_in_surface_limits(), standard)) +
              draw(given, subject_by_rule(ways.front())));
}

ExitCode by_case(const VerbArguments &given)
{
  for (const char *option : {"thickness", "yield", "elongation", "former"})
    if (given.has(option))
      throw InputError(std::string("fixture: --") + option +
                       " is for a rule without a case; the case gives it already.");
  const CaseReading reading = read_case(given.operands.front(), given.overrides);
  if (!reading.errors.empty())
    throw InputError("the case cannot be used:\n" + error_list(reading.errors));
  std::string text;
  if (const std::string rule = given.value("rule", reading.value->fixture.rule);
      !rule.empty())
    text = comparison_text(
        compare_with_rule(rules_with(given.value("catalogue")), rule, *reading.value),
        units_of(given));
  text += draw(given, subject_by_case(*reading.value));
  if (text.empty())
    throw InputError("fixture: say what to do with the case: --drawing FILE.svg, "
                     "--dxf FILE.dxf, --profiles FILE.vtp or --rule NAME.");
  return show(text);
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(fixture_verb(), words);
  if (given.help)
    return show(verb_help(fixture_verb()));
  return given.operands.empty() ? by_rule(given) : by_case(given);
}
} // namespace

Verb fixture_verb()
{
  return {
      "fixture",
      "[CASE]",
      "fixture dimensions by a published rule; drawings to scale",
      "Prints the fixture dimensions that a rule gives for a coupon, in both unit "
      "systems, with clause, clearance, cautions and the source of the figures: "
      "throughbend fixture --rule asme-ix-plunger-general --thickness \"3/8 in\". With "
      "a case it compares the fixture of the case with a rule, dimension by dimension. "
      "--drawing draws the fixture to scale, --dxf does so for CAD.",
      {{"rule", "NAME", "a rule or a family of rules; throughbend rules lists them", {}},
       {"thickness", "LENGTH", "thickness of the coupon: 10 mm, \"3/8 in\"", {}},
       {"yield", "STRESS", "yield stress of the base metal, if the rule depends on it", {}},
       {"elongation",
        "SHARE",
        "elongation of the base metal, if the rule depends on "
        "it: 18 %",
        {}},
       {"former", "LENGTH", "width of the plunger, if the rule leaves a choice", {}},
       {"drawing",
        "FILE",
        "a dimensioned sketch as SVG, on A4, or Letter with --units us",
        {}},
       {"dxf",
        "FILE",
        "the same sheet as a CAD file: DXF of release 12, sections in their own size, 1 "
        "unit "
        "= 1 mm, or 1 inch with --units us",
        {}},
       {"profiles", "FILE", "outlines of the tools for ParaView, as .vtp", {}},
       {"overwrite",
        "",
        "replace a file of that name that was not made by this verb. Its own files are "
        "always replaced",
        {}},
       {"catalogue",
        "FILE",
        "your own fixture rules, with the columns of the built-in file",
        {}},
       units_option("of the printed figures")},
      CaseKeys::taken,
      1,
      carry_out};
}
} // namespace throughbend
