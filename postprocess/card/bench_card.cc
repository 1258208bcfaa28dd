#include "postprocess/card/bench_card.h"

#include "inputs/text/plain_text.h"
#include "inputs/units/display_units.h"
#include "inputs/units/shop_fraction.h"
#include "postprocess/card/card_figure.h"
#include "postprocess/card/card_layout.h"
#include "postprocess/card/card_limit_boxes.h"
#include "postprocess/card/card_sketch.h"
#include "postprocess/card/card_text.h"
#include "postprocess/card/card_warnings.h"
#include "postprocess/html/html_text.h"
#include "solver/limits/card_metals.h"
#include "solver/screening/jack_work.h"

namespace throughbend
{
namespace
{
// Room for texts that others have written [bytes]; the sheet is laid out for these.
constexpr std::size_t title_room = 85, list_room = 560, scope_room = 80;
/// Whole, or as many as there is room for and how many that are.
std::string listed(const std::vector<std::string> &names)
{
  std::string list;
  for (std::size_t i = 0; i < names.size(); ++i)
  {
    const std::string longer = list + (list.empty() ? "" : ", ") + names[i];
    if (longer.size() > list_room)
      return list + " (" + std::to_string(i) + " of " + std::to_string(names.size()) +
             " shown)";
    list = longer;
  }
  return list;
}

std::string rule_words(const BenchCard &card)
{
  if (!card.limits.rule)
    return "Rule: the case names none (fixture.rule). The metals below are limited only "
           "by ram and stretch.";
  const RuleComparison &comparison = *card.limits.rule;
  const FixtureRule    &rule       = comparison.by_rule.rule;
  std::string           differs;
  for (const ComparisonRow &row : comparison.rows)
    if (row.agreement != Agreement::ok)
      differs += (differs.empty() ? "" : ", ") + row.words;
  return "Rule: " + rule.rule + " (" + rule.standard + ", edition " + rule.edition + ", " +
         rule.clause + "; figures " + to_text(rule.how.row) +
         (rule.how.any(How::from_memory) ? ": confirm them in the current edition" : "") +
         "), for " + clipped(rule.applies_to, scope_room) + ". " +
         (differs.empty() ? "The fixture agrees with it."
                          : "NOT AS THE RULE SAYS: " + clipped(differs, 110) + ".");
}

std::string metals_html(const BenchCard &card)
{
  const CardMetals metals = card_metals(card.limits);
  std::string      html   = element("p", rule_words(card));
  const auto       add = [&](const std::string &head, const std::vector<std::string> &names)
  {
    if (!names.empty())
      html +=
          "<p><strong>" + escaped(head) + "</strong> " + escaped(listed(names)) + "</p>\n";
  };
  std::vector<std::string> freely;
  std::copy_if(metals.taken.begin(), metals.taken.end(), std::back_inserter(freely),
               [&](const std::string &name)
               {
                 return std::find(metals.at_a_point.begin(), metals.at_a_point.end(),
                                  name) == metals.at_a_point.end();
               });
  add("May be bent on this plunger:", freely);
  add("May be bent, the first behind a guard (a point may pass the stated elongation):",
      metals.at_a_point);
  if (metals.taken.empty())
    html += element("p", "No plate of the catalogue is cleared for this plunger.");
  add("Elongation not known: not cleared:", metals.not_known);
  add("The rule depends on groups of metals that the catalogue does not have: not "
      "cleared:",
      metals.by_group);
  add("Not on this plunger, by the rule:", metals.by_rule);
  add("Too strong for the ram:", metals.by_ram);
  add("Elongation too small:", metals.by_stretch);
  return html +
         element("p",
                 "Plates of the catalogue of materials. Yields are mostly the least that a "
                 "standard asks for, and plates are stronger: the certificate decides.",
                 "small");
}

std::string rule_line(const std::string &head, const std::string &text)
{
  return "<p><strong>" + escaped(head) + "</strong>" + escaped(text) + "</p>\n";
}

/// The case's own coupon as check has it, and the worst that the limits allow.
std::string ejection_words(const BenchCard &card)
{
  const Bound      &most = card.limits.ejection;
  const Screening   own  = screen(card.given);
  const ScreenLine *line = own.find("ejection_speed");
  std::string       words;
  if (line != nullptr)
    words = "at up to " + given(line->value, speed_text, card) +
            " with the case's coupon, up to ";
  else
    words = "at up to ";
  return words + given(most.value, speed_text, card) + " with " + most.by +
         " within these limits (" + most.source + ").";
}

/// What the jack gives at its gauge's usual ceiling, where that is less than the rating.
std::string jack_text(const BenchCard &card)
{
  const Ram &ram = card.given.ram;
  if (!ram.jack.present() || jack_ceiling(ram.jack) >= ram.capacity)
    return "";
  return "; the jack gives " + given(jack_ceiling(ram.jack), force_text, card) +
         " with its gauge at " + given(usual_pressure, stress_text, card);
}

std::string rules_html(const BenchCard &card)
{
  return rule_line("Keep the guard closed",
                   "Close it before you touch the pump. Open it when the coupon is out "
                   "and the ram has stopped.") +
         rule_line("Eye and hand protection",
                   "Safety glasses or a face shield. Keep hands out while the jack is "
                   "pressurised; gloves for the coupon, its edges cut.") +
         rule_line("It can fly out below", ejection_words(card) +
                                               " Catch it in a box. Nobody stands in line "
                                               "with it.") +
         rule_line("Never beyond the ram's rating",
                   both(card.given.ram.capacity, Measure::force, Rounded::down, card) +
                       ", " +
                       both(card.given.ram.stroke, Measure::length, Rounded::down, card) +
                       " (case: ram.capacity, ram.stroke)" + jack_text(card) +
                       ". Stop when the force climbs and the coupon does not move.");
}

std::string grease_html(const BenchCard &card)
{
  const Case       &c = card.given;
  const std::string name =
      c.friction.lubricant.empty() ? "" : clipped(c.friction.lubricant, 30) + ", ";
  std::string text =
      "On the thick lines: the rounds of both shoulders, and the coupon's "
      "lower face where it slides over them" +
      std::string(c.fixture.frame.present() ? "; the frame's opening." : ".");
  if (c.fixture.shoulders.roll())
    text += " Calculated for rollers that turn freely (case: shoulders.rollers_turn): keep "
            "them turning.";
  else
    text += " Calculated with friction " + decimal_text(c.friction.shoulders, 2) +
            " (case: " + name + "friction.shoulders)" +
            (c.friction.left_shoulder() == c.friction.shoulders
                 ? "."
                 : ", on the left shoulder " + decimal_text(c.friction.left_shoulder(), 2) +
                       " (friction.left_shoulder).");
  if (card.limits.dry_force.value > card.limits.force.value)
    text += " Dry, the ram needs " +
            both(card.limits.dry_force.value, Measure::force, Rounded::up, card) +
            " (check peak_force with dry-mill-scale of lubricants).";
  return "<strong>Grease here</strong>" + escaped(text);
}

std::string runs_html(const BenchCard &card)
{
  if (card.runs.empty())
    return "";
  std::vector<std::vector<std::string>> rows;
  for (const CardRun &run : card.runs)
  {
    const Case &c = *run.record.known_case;
    rows.push_back(
        {path_text(run.folder), run.found, given(c.coupon.thickness, length_text, card),
         given(c.coupon.length, length_text, card),
         stress_text(c.material.flow.initial_stress(), card.units),
         (run.takes_more() ? "> " : "") +
             card_figures(run.force_it_takes(), Measure::force, Rounded::up, card.units),
         run.within ? "yes" : "no"});
  }
  return table({"run folder", "found", "thick", "long", "yield", "takes", "within"}, rows);
}

std::string fixture_words(const BenchCard &card)
{
  const Fixture &f  = card.given.fixture;
  const auto     mm = [&](const double value) { return both_text(value, card.units); };
  return "Plunger " + mm(f.plunger.width) + " wide, nose radius " +
         mm(f.plunger.nose_radius) + "; " +
         (f.shoulders.kind == ShoulderKind::solid ? "solid shoulders" : "rollers") +
         " of radius " + mm(f.shoulders.radius) + ", opening " + mm(f.shoulders.opening) +
         (f.frame.present() ? "; frame at " + mm(f.frame.distance) + " from the centre"
                            : "; no frame") +
         ". From the case " + path_text(card.case_file) + ".";
}
} // namespace

std::string bench_card(const BenchCard &card)
{
  const std::string title =
      card.given.title.empty() ? "Guided-bend fixture" : card.given.title;
  return filled(card_frame, {{"title", escaped(clipped(title, title_room))},
                             {"style", card_style},
                             {"fixture", escaped(fixture_words(card))},
                             {"warning", warning_html(card)},
                             {"limits", limits_html(card)},
                             {"metals", metals_html(card)},
                             {"rules", rules_html(card)},
                             {"sketch", card_sketch(card.limits.extreme)},
                             {"grease", grease_html(card)},
                             {"runs", runs_html(card)},
                             {"left_out", left_out_html(card)},
                             {"made", escaped("Made by " + card.program +
                                              " card. Make a new one when fixture, ram "
                                              "or grease change.")}});
}

bool is_bench_card(const std::string &html)
{
  return html.find("<meta name=\"generator\" content=\"throughbend card\">") !=
         std::string::npos;
}
} // namespace throughbend
