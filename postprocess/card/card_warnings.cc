#include "postprocess/card/card_warnings.h"

#include "inputs/keys/material_catalogue.h"
#include "inputs/units/display_units.h"
#include "postprocess/card/card_limit_boxes.h"
#include "postprocess/card/card_text.h"
#include "postprocess/html/html_text.h"
#include "solver/screening/margins.h"
#include "solver/screening/screen_parts.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
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
} // namespace

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
  if (!has_length(card.limits))
    text +=
        "With this fixture and ram the thickest coupon has no length with a margin, and "
        "thinner coupons need more length. ";
  std::string refused, near;
  for (const ScreenLine &line : card.limits.refused)
    if (line.key.find("_dent") == std::string::npos) // goes with the pressure
    {
      std::string &list = line.verdict == Verdict::no ? refused : near;
      list += (list.empty() ? "" : ", ") + line.quantity;
    }
  if (!refused.empty())
    text += "throughbend check says NO of the thickest coupon: " + refused + ". ";
  if (!near.empty())
    text += "throughbend check does not clear the thickest coupon: " + near + ". ";
  // Lengths and stroke of the sheet are made for the usual springback.
  constexpr double degree = 3.14159265358979323846 / 180;
  if (force_band(card.limits.extreme).springback.value > margins::usual_springback * degree)
    text += "The case's metal springs back by more than the lengths and the stroke of this "
            "sheet allow for: push the thickest coupon first. ";
  if (zones_share_unevenly(force_band(card.given)))
    text +=
        "This sheet clears metals as plain plate. The zones of the case's weld differ in "
        "strength, and the softest is stretched more: push a welded coupon first. ";
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

/// What leaves the sheet first when it is full stands last.
std::string left_out_html(const BenchCard &card)
{
  const Coupon            &own = card.given.coupon;
  std::vector<std::string> said;
  said.push_back(std::string(card.limits.by_passes
                                 ? "Limits from simulated passes hold for one change at a "
                                   "time: simulate a coupon at all of them before you bend "
                                   "one. A"
                                 : "Limits hold together; a") +
                 " thinner coupon must be longer to keep its support (check "
                 "length_needed).");
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
} // namespace throughbend
