#include "postprocess/words/study/choose_answer.h"

#include "inputs/keys/option_table.h"
#include "inputs/text/json.h"
#include "inputs/text/plain_text.h"
#include "inputs/units/display_units.h"
#include "postprocess/words/doubt_words.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

std::string value_words(const StudyKey &key, const double value)
{
  return shown_value(key, value) + (key.unit.empty() ? "" : " " + key.unit);
}

/// Bands are told inward, so that nothing told has not been pushed.
std::string band_words(const StudyKey &key, const ChoiceBand &band)
{
  return value_words(key, band.low) + " to " + value_words(key, band.high);
}

std::string coupon_words(const ChoiceReport &report, const FamilyCoupon &coupon)
{
  std::string words;
  for (std::size_t i = 0; i < report.keys.family.size(); ++i)
    words += (words.empty() ? "" : ", ") + report.keys.family[i].key + " " +
             value_words(report.keys.family[i], coupon.values[i]);
  for (std::size_t i = 0; i + 1 < coupon.words.size(); i += 2)
    words +=
        (words.empty() ? "" : ", ") + coupon.words[i].substr(2) + " " + coupon.words[i + 1];
  return words;
}

Json family_json(const ChoiceReport &report)
{
  Json family = Json::object();
  for (std::size_t i = 0; i < report.keys.family.size(); ++i)
  {
    double low = report.space.corners.front().values[i], high = low;
    for (const FamilyCoupon &coupon : report.space.corners)
    {
      low  = std::min(low, coupon.values[i]);
      high = std::max(high, coupon.values[i]);
    }
    family[report.keys.family[i].key] = {low, high};
  }
  for (const FamilyCoupon &coupon : report.space.corners)
    for (std::size_t i = 0; i + 1 < coupon.words.size(); i += 2)
    {
      Json &list = family[coupon.words[i].substr(2)];
      if (std::find(list.begin(), list.end(), Json(coupon.words[i + 1])) == list.end())
        list.push_back(coupon.words[i + 1]);
    }
  return family;
}

Json side_json(const ChoiceSide &side)
{
  return {{"value", side.good},
          {"next", side.at_end ? Json() : Json(side.bad)},
          {"because", side.at_end ? "end of the given levels" : side.because}};
}

std::string side_words(const StudyKey &key, const ChoiceSide &side, const std::string &way)
{
  return way + " to " + value_words(key, side.good) +
         (side.at_end ? ", the end of its levels"
                      : "; not " + value_words(key, side.bad) + ": " + side.because);
}
} // namespace

std::string to_text(const ChoiceGoal goal)
{
  return goal == ChoiceGoal::least_force ? "least-force" : "most-margin";
}

std::string choice_json(const ChoiceReport &report)
{
  const FixtureChoice &choice = report.choice;
  Json                 json   = Json::object();
  json["fixture"]             = Json();
  if (choice.fixture)
  {
    Json fixture = Json::object();
    for (std::size_t d = 0; d < report.keys.free.size(); ++d)
      fixture[report.keys.free[d].key] = (*choice.fixture)[d];
    json["fixture"] = fixture;
  }
  json["family"]  = family_json(report);
  json["goal"]    = report.goal == ChoiceGoal::least_force ? "least force" : "most margin";
  json["corners"] = report.space.corners.size();
  json["sample"]  = report.space.sample.size();
  json["candidates"] = {{"all", choice.candidates},
                        {"left_out_by_closed_forms", choice.by_closed_forms},
                        {"left_out_by_passes", choice.by_passes},
                        {"not_better", choice.not_better}};
  Json objections    = Json::object();
  for (const auto &[words, count] : choice.objections)
    objections[words] = count;
  json["objections"] = objections;
  Json limited       = Json::array();
  for (std::size_t d = 0; d < choice.low.size(); ++d)
    limited.push_back({{"key", report.keys.free[d].key},
                       {"low", side_json(choice.low[d])},
                       {"high", side_json(choice.high[d])}});
  json["limited_by"] = limited;
  Json bands         = Json::array();
  for (std::size_t d = 0; d < choice.bands.size(); ++d)
    bands.push_back({{"key", report.keys.free[d].key},
                     {"low", choice.bands[d].low},
                     {"high", choice.bands[d].high}});
  json["bands"]           = bands;
  json["band_share"]      = choice.band_share;
  json["wider"]           = choice.wider.empty() ? Json() : Json(choice.wider);
  json["metal_not_known"] = report.metal_not_known;
  if (choice.fixture)
    json["worst"] = {
        {report.goal == ChoiceGoal::least_force ? "peak_ram_force_N" : "margin",
         report.goal == ChoiceGoal::least_force ? -choice.score : choice.score},
        {"coupon", coupon_words(report, choice.worst)}};
  return json_text(json);
}

std::vector<SizeLimits> chosen_limits(const ChoiceReport &report)
{
  static const std::map<std::string, std::string> letters = {
      {"plunger.width", "A"},         {"plunger.nose_radius", "B"},
      {"shoulders.opening", "C"},     {"shoulders.radius", "E"},
      {"shoulders.depth", "F"},       {"shoulders.bottom_radius", "G"},
      {"frame.distance", "H"},        {"frame.plate_thickness", "J"},
      {"frame.clearance_above", "K"}, {"frame.clearance_below", "M"},
      {"frame.edge_radius", "N"}};
  std::vector<SizeLimits> limits;
  for (std::size_t d = 0; d < report.choice.bands.size(); ++d)
    if (const auto letter = letters.find(report.keys.free[d].key); letter != letters.end())
    {
      SizeLimits of_one{
          letter->second, LimitKind::tolerance, {}, "all together, by simulated passes"};
      of_one.range.low  = report.choice.bands[d].low;
      of_one.range.high = report.choice.bands[d].high;
      limits.push_back(of_one);
    }
  return limits;
}

std::string choice_words(const ChoiceReport &report, const UnitSystem units)
{
  const FixtureChoice &choice = report.choice;
  std::string          text   = fmt::format(
                 "{} fixtures for {} corners of the family and {} coupons within; {}.\n",
                 choice.candidates, report.space.corners.size(), report.space.sample.size(),
      report.goal == ChoiceGoal::least_force ? "least force" : "most margin");
  text += fmt::format("Left out by closed forms {}, by passes {}, not better {}.\n",
                      choice.by_closed_forms, choice.by_passes, choice.not_better);
  for (const auto &[words, count] : choice.objections)
    text += fmt::format("  {:>5}  {}\n", count, clipped(words, 80));
  if (!choice.fixture)
    return text + "\nNone of these fixtures takes the whole family with sound passes.\n";
  text += "\nChosen:\n";
  for (std::size_t d = 0; d < report.keys.free.size(); ++d)
    text += fmt::format("  {:<26} {}\n", report.keys.free[d].key,
                        value_words(report.keys.free[d], (*choice.fixture)[d]));
  text += wrapped((report.goal == ChoiceGoal::least_force
                       ? "largest force " + force_text(-choice.score, units)
                       : "smallest margin " + percent_text(choice.score)) +
                      ", with " + coupon_words(report, choice.worst),
                  "  ", columns);
  if (report.metal_not_known > 0)
    text += wrapped(metal_not_known_words(static_cast<double>(report.metal_not_known)),
                    "  ", columns);
  text += "\nRange of each size, the others as chosen, for the corners of the family:\n";
  for (std::size_t d = 0; d < report.keys.free.size(); ++d)
  {
    text += "  " + report.keys.free[d].key + "\n";
    text +=
        wrapped(side_words(report.keys.free[d], choice.low[d], "down"), "    ", columns);
    text += wrapped(side_words(report.keys.free[d], choice.high[d], "up"), "    ", columns);
  }
  if (choice.bands.empty())
    return text +
           "\nNo tolerance found: even an eighth of the way to these limits is not "
           "sound in all corners.\n" +
           wrapped(choice.wider, "  ", columns);
  text += fmt::format(
      "\nTolerances, all together ({} of the way to the limits): every corner of "
      "the bands\nwith every corner of the family, and {} coupons within, went "
      "through:\n",
      choice.band_share == 1 ? "all" : percent_text(choice.band_share), choice.band_sample);
  for (std::size_t d = 0; d < report.keys.free.size(); ++d)
    text += fmt::format("  {:<26} {}\n", report.keys.free[d].key,
                        band_words(report.keys.free[d], choice.bands[d]));
  if (!choice.wider.empty())
    text += wrapped("Wider tolerances do not hold: " + choice.wider, "  ", columns);
  return text +
         wrapped("Nothing is proven between the computed passes. Keep a margin to these "
                 "limits for differences in mesh, grease and plate.",
                 "", columns);
}
} // namespace throughbend
