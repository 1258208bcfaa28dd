#include "postprocess/card/bench_card.h"

#include "inputs/catalogue/lubricant_catalogue.h"
#include "inputs/keys/material_catalogue.h"
#include "inputs/text/plain_text.h"
#include "inputs/units/display_units.h"
#include "inputs/units/shop_fraction.h"
#include "postprocess/card/card_figure.h"
#include "postprocess/card/card_layout.h"
#include "postprocess/card/card_sketch.h"
#include "postprocess/html/html_text.h"
#include "solver/limits/card_metals.h"
#include "solver/screening/jack_work.h"
#include "solver/screening/margins.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
// Room for texts that others have written [bytes]; the sheet is laid out for these.
constexpr std::size_t title_room = 85, path_room = 40, list_room = 560;

/// The end of a path says which it is.
std::string path_text(const std::string &path)
{
  if (path.size() <= path_room)
    return path;
  std::size_t from = path.size() - path_room;
  while (from < path.size() && (static_cast<unsigned char>(path[from]) & 0xC0) == 0x80)
    ++from; // not inside a UTF-8 character
  return "..." + path.substr(from);
}

std::string element(const std::string &tag, const std::string &text,
                    const std::string &kind = "")
{
  return "<" + tag + (kind.empty() ? "" : " class=\"" + kind + "\"") + ">" + escaped(text) +
         "</" + tag + ">\n";
}

std::string big_words(const std::string &first, const std::string &second,
                      const std::string &kind)
{
  return "<p class=\"" + kind + "\"><b>" + escaped(first) + "</b> <span>" +
         escaped(second) + "</span></p>\n";
}

std::string big(const double value, const Measure measure, const Rounded rounded,
                const UnitSystem units, const std::string &kind)
{
  return big_words(card_figure(value, measure, rounded, units),
                   card_figure(value, measure, rounded, other_units(units)), kind);
}

/// As the rule prints it, if it is a rule's; an open limit is not to be reached.
std::string bound_figure(const Bound &bound, const Measure measure, const UnitSystem units)
{
  return (bound.edge == Edge::open ? "below " : "") +
         card_figure(bound.printed(units), measure, Rounded::down, units);
}

std::string bound_figures(const Bound &bound, const Measure measure, const UnitSystem units)
{
  return bound_figure(bound, measure, units) + " (" +
         bound_figure(bound, measure, other_units(units)) + ")";
}

std::string box(const std::string &head, const std::string &inside)
{
  return "<section class=\"limit\">" + element("h2", head) + inside + "</section>\n";
}

/// What decides, where it is from, and what would decide next.
std::string reason(const Bounds &bounds, const Measure measure, const UnitSystem units)
{
  const Bound *first = bounds.decisive();
  std::string  next;
  for (const Bound &bound : bounds.all)
    if (&bound != first)
      next += (next.empty() ? " Others: " : ", ") + bound.by +
              (bound.value > 0 ? " " + bound_figures(bound, measure, units) : "");
  return element("p", "Set by: " + first->by) +
         element("p", first->source + "." + (next.empty() ? "" : next + "."), "small");
}

std::string limit_box(const std::string &head, const Bounds &bounds, const Measure measure,
                      const BenchCard &card, const std::string &more)
{
  const Bound      &first = *bounds.decisive();
  const std::string figure =
      bounds.none
          ? element("p", "none", "value")
          : big_words(bound_figure(first, measure, card.units),
                      bound_figure(first, measure, other_units(card.units)), "value");
  return box(head, figure + more + reason(bounds, measure, card.units));
}

std::string both(const double value, const Measure measure, const Rounded rounded,
                 const BenchCard &card)
{
  return card_figures(value, measure, rounded, card.units);
}

/// What the case says, in both families.
std::string given(const double     value, std::string (*text)(double, UnitSystem),
                  const BenchCard &card)
{
  return text(value, card.units) + " (" + text(value, other_units(card.units)) + ")";
}

/// The ram that is needed: closed forms, or a run that took more. A run that its own ram
/// stopped tells what a stronger one gives, or else only that more is needed.
Bound force_needed(const BenchCard &card)
{
  Bound force = card.limits.force;
  for (const CardRun &run : card.runs)
    if (const double needed = run.force_it_takes() / margins::rating_share;
        run.within && needed > force.value)
      force = {needed, force.by,
               "run folder " + path_text(run.folder) + ": " +
                   (run.takes_more() ? "stopped by its ram; what it takes is not known, "
                                       "and it is MORE than this"
                                     : "force it takes, over 90 %")};
  return force;
}

std::string ram_box(const BenchCard &card)
{
  const CaseLimits &limits = card.limits;
  const Bound       force  = force_needed(card);
  std::string       more   = "Force for the thickest coupon, " +
                     given(card.given.coupon.width, length_text, card) + " wide, in " +
                     limits.force.by;
  if (limits.strongest_force.value > 0)
    more += "; for the strongest " +
            both(limits.strongest_force.value, Measure::force, Rounded::up, card);
  return box(
      "Ram, at least",
      big(force.value, Measure::force, Rounded::up, card.units, "second") +
          big(limits.stroke.value, Measure::length, Rounded::up, card.units, "second") +
          element("p", more + ".") +
          element("p", force.source + ". Stroke: " + limits.stroke.source + ".", "small"));
}

std::string own_metal_words(const OwnMetal own)
{
  switch (own)
  {
  case OwnMetal::cleared:
    return "";
  case OwnMetal::elongation_not_known:
    return " The case's own metal is NOT CLEARED: its elongation is not given.";
  case OwnMetal::too_brittle:
    return " The case's own metal is NOT CLEARED: it stretches too little.";
  case OwnMetal::group_not_known:
    return " The case's own metal is NOT CLEARED: the rule depends on the group of the "
           "metal, and the case does not name it.";
  case OwnMetal::not_by_rule:
    return " The case's own metal is NOT CLEARED: the rule is not for it.";
  }
  return "";
}

/// Of the thickest coupon as the card prints it, which may be a little thinner and need
/// more length [mm].
double shortest_printed(const BenchCard &card)
{
  const Bound &thickest = *card.limits.thickest.decisive();
  double       shortest = card.limits.shortest.value;
  for (const UnitSystem units : {UnitSystem::metric, UnitSystem::us})
  {
    const double printed =
        card_value(thickest.printed(units), Measure::length, Rounded::down, units);
    if (printed > 0)
      shortest = std::max(
          shortest, shortest_coupon(with_thickness(card.limits.extreme, printed)).value);
  }
  return shortest;
}

std::string limits_html(const BenchCard &card)
{
  const CaseLimits &limits = card.limits;
  const std::string shortest =
      element("p", "At that thickness no shorter than " +
                       both(shortest_printed(card), Measure::length, Rounded::up, card) +
                       " (check length_needed). Plunger straight for " +
                       both(limits.straight_plunger, Measure::length, Rounded::up, card) +
                       " above its round (check straight_leg).");
  const std::string stretch = element(
      "p", "Yield stress. Elongation at least " + percent_text(limits.elongation) +
               (limits.elongation > limits.stretch ? " (by the rule)."
                                                   : " (nominal stretch t / (A + t)).") +
               own_metal_words(limits.own_metal));
  return limit_box("Thickest coupon", limits.thickest, Measure::length, card, "") +
         limit_box("Longest coupon", limits.longest, Measure::length, card, shortest) +
         limit_box("Strongest " + kind_text(card.given.material), limits.strongest,
                   Measure::stress, card, stretch) +
         ram_box(card);
}

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
         "), for " + clipped(rule.applies_to, 2 * path_room) + ". " +
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
  add("May be bent on this plunger:", metals.taken);
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
                   given(card.given.ram.capacity, force_text, card) + ", " +
                       given(card.given.ram.stroke, length_text, card) +
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
  text += " Calculated with friction " + decimal_text(c.friction.shoulders, 2) +
          " (case: " + name + "friction.shoulders).";
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

std::string warning_html(const BenchCard &card)
{
  const auto  against = [](const CardRun &run) { return run.contradicts; };
  const auto  n       = std::count_if(card.runs.begin(), card.runs.end(), against);
  std::string text;
  if (const auto run = std::find_if(card.runs.begin(), card.runs.end(), against);
      run != card.runs.end())
    text = "DO NOT USE THESE LIMITS. A pass simulated within them is not sound: " +
           path_text(run->folder) + " (" + run->found + ")" +
           (n > 1 ? " and " + std::to_string(n - 1) + " more" : "") + ". ";
  const auto torn = [](const CardRun &run)
  { return run.within && run.record.word("metal.answer") == "beyond"; };
  if (const auto run = std::find_if(card.runs.begin(), card.runs.end(), torn);
      run != card.runs.end())
    text += "The metal of a run within these limits is beyond its own limit: " +
            path_text(run->folder) + ". It may tear: read its report. ";
  if (!card.limits.possible())
    text +=
        "With this fixture and ram the thickest coupon has no length with a margin, and "
        "thinner coupons need more length. ";
  std::string refused;
  for (const ScreenLine &line : card.limits.refused)
    if (line.key.find("_dent") == std::string::npos) // goes with the pressure
      refused += (refused.empty() ? "" : ", ") + line.quantity;
  if (!refused.empty())
    text += "throughbend check says NO of the thickest coupon: " + refused + ". ";
  const double yield = card.given.material.flow.initial_stress();
  for (const Bound &bound : card.limits.strongest.all)
    if (!bound.of_known_metals && (bound.value < yield * (1 - 1e-6) ||
                                   (bound.edge == Edge::open && bound.value <= yield)))
    {
      text += "The case's own metal is too strong: " + bound.by + ". ";
      break;
    }
  return text.empty() ? "" : element("p", text, "warning");
}

/// As many as there is room for, each whole, and how many are left out.
std::string whole_sentences(const std::vector<std::string> &said, const std::size_t room)
{
  std::string text;
  for (std::size_t i = 0; i < said.size(); ++i)
  {
    if (text.size() + said[i].size() > room)
      return text + "And " + std::to_string(said.size() - i) +
             " more: see throughbend check.";
    text += said[i] + " ";
  }
  return text;
}

/// What leaves the sheet first when it is full stands last.
std::string left_out_html(const BenchCard &card)
{
  const Coupon            &own = card.given.coupon;
  std::vector<std::string> said;
  said.push_back(
      card.limits.by_passes
          ? "Limits from simulated passes hold for one change at a time. Simulate a "
            "coupon at all limits together before you bend one."
          : "Limits hold together; a thinner coupon must be longer to keep its "
            "support (check length_needed).");
  if (card.given.weld.present())
    said.push_back("Of weld and HAZ only the strength is in the forces, as if all of the "
                   "coupon were the strongest zone. Stretch gathers in the softer zone.");
  if (const std::string words = least_strength_words(card.given.material); !words.empty())
    said.push_back(words + ".");
  if (own.taper != 0)
    said.push_back("Thickness limits are those of the thick end of a tapered coupon.");
  said.push_back(
      "Guard, eyes, hands: common practice, no source; the shop's own rules come "
      "first.");
  if (own.thickness + std::abs(own.taper) / 2 > card.limits.thickest.decisive()->value ||
      own.length > card.limits.longest.decisive()->value ||
      own.length < shortest_coupon(card.given).value)
    said.insert(said.begin(), "The case's own coupon, " +
                                  given(own.thickness, length_text, card) + " thick and " +
                                  given(own.length, length_text, card) +
                                  " long, lies outside these limits: see throughbend "
                                  "check.");
  said.push_back("Closed forms" +
                 std::string(card.limits.by_passes ? " but for the study" : "") +
                 std::string(card.runs.empty()       ? ""
                             : card.limits.by_passes ? " and the runs above"
                                                     : " but for the runs above") +
                 "; sources and bands: throughbend check --sources.");
  for (const std::string &caution : screen(card.limits.extreme).cautions)
    said.push_back(caution);
  if (card.limits.rule)
    for (const std::string &caution : card.limits.rule->by_rule.cautions)
      said.push_back(caution);
  // Each run, with all its answers, takes up to two lines of the sheet from these words.
  return element("p", whole_sentences(said, 700 - 200 * card.runs.size()));
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
