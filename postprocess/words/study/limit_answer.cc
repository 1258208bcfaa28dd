#include "postprocess/words/study/limit_answer.h"

#include "inputs/text/json.h"
#include "inputs/text/plain_text.h"
#include "postprocess/runs/pass_sentences.h"
#include "solver/study/file/pass_mark.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <map>

namespace throughbend
{
namespace
{
constexpr std::size_t columns = 92;

std::string value_words(const StudyKey &key, const double shown)
{
  return written_value(key, inside_value(key, shown));
}

std::string side_text(const StudyKey &key, const LimitPlace &place, const StudyPass &pass,
                      const UnitSystem units)
{
  std::string text = fmt::format(
      "    {:<12} {}\n", value_words(key, place.value),
      pass.outcome + (pass.held.empty() ? "" : ", " + pass.held) + "; metal " + pass.metal +
          (pass.accuracy == "sound" ? "" : "; accuracy " + pass.accuracy));
  text += wrapped(pass_verdict(pass, shown_in(units)), "                 ", columns);
  if (const std::string why = pass_evidence(pass, shown_in(units)); !why.empty())
    text += wrapped(why, "                 ", columns);
  return text;
}

std::string check_words(const KeyLimit &limit)
{
  if (limit.check.empty())
    return "check: cannot vary this key.";
  std::string text = "check (closed forms, with their margins): ";
  for (std::size_t i = 0; i < limit.check.size(); ++i)
  {
    const CheckStretch &stretch = limit.check[i];
    text += (i == 0 ? "" : "; ") + to_text(stretch.verdict) +
            (stretch.says.empty() ? "" : " by its line \"" + stretch.says + "\"") +
            " from " + shown_value(limit.key, stretch.from) + " to " +
            shown_value(limit.key, stretch.to) +
            (limit.key.unit.empty() ? "" : " " + limit.key.unit);
  }
  return text + ".";
}

/// How many of the passes are not sound, and by what: one answer for all of them must not
/// hide it.
std::string doubts_text(const KeyLimit &limit, const std::vector<StudyPass> &passes)
{
  std::map<std::string, int> counts;
  int                        decided = 0, unsound = 0;
  for (const LimitPlace &place : limit.places)
  {
    const StudyPass &pass = passes.at(place.pass);
    if (place.meets == Meets::not_known)
      continue;
    ++decided;
    std::vector<std::string> all = doubts(pass);
    if (pass.metal == "beyond")
      all.emplace_back("metal beyond");
    unsound += all.empty() ? 0 : 1;
    for (const std::string &doubt : all)
      ++counts[doubt];
  }
  std::string text;
  for (const auto &[doubt, count] : counts)
    text += (text.empty() ? "" : "; ") + doubt + ": " + std::to_string(count);
  return text.empty() ? ""
                      : wrapped(fmt::format("{} of these {} passes are not sound. {}.",
                                            unsound, decided, text),
                                "  ", columns);
}

std::string key_text(const KeyLimit &limit, const StudyCondition &condition,
                     const std::vector<StudyPass> &passes, const UnitSystem units)
{
  const StudyKey &key  = limit.key;
  std::string     text = fmt::format("\n{} from {} to {}, {} passes\n", key.key,
                                     value_words(key, limit.range.from),
                                     value_words(key, limit.range.to), limit.places.size());
  if (limit.places.empty())
    return text + "  no pass is done yet\n";
  if (limit.changes.empty())
  {
    const auto decided = std::find_if(limit.places.begin(), limit.places.end(),
                                      [](const LimitPlace &place)
                                      { return place.meets != Meets::not_known; });
    if (decided == limit.places.end())
      text += "  No pass shows whether it is " + condition.words() +
              ": all of them are undecided, or the metal is not known.\n";
    else
      text += wrapped(fmt::format("No change was found: \"{}\" {} of the {} computed "
                                  "values that tell. Nothing was computed between them.",
                                  condition.words(),
                                  decided->meets == Meets::yes ? "holds at each"
                                                               : "holds at none",
                                  limit.places.size() - limit.undecided.size()),
                      "  ", columns) +
              doubts_text(limit, passes);
  }
  for (const LimitChange &change : limit.changes)
  {
    const bool rises = change.below.meets == Meets::yes;
    text += fmt::format("  {} at {}, {} at {}{}\n", rises ? "holds" : "does not hold",
                        value_words(key, change.below.value), rises ? "no longer" : "holds",
                        value_words(key, change.above.value),
                        change.undecided == 0 ? ""
                                              : fmt::format("; {} on neither side between",
                                                            change.undecided));
    text += side_text(key, change.below, passes.at(change.below.pass), units);
    text += side_text(key, change.above, passes.at(change.above.pass), units);
  }
  for (const LimitPlace &place : limit.undecided)
  {
    const StudyPass &pass = passes.at(place.pass);
    text += fmt::format("  at {} on neither side: {}{}\n", value_words(key, place.value),
                        pass.outcome == "through" ? "metal " + pass.metal + "; " : "",
                        clipped(pass_verdict(pass, shown_in(units)), 160));
  }
  return text + wrapped(check_words(limit), "  ", columns);
}

Json place_json(const StudyKey &key, const LimitPlace &place,
                const std::vector<StudyPass> &passes)
{
  Json json     = Json::object();
  json["value"] = place.value * key.scale;
  json["pass"]  = place.pass;
  json["holds"] =
      place.meets == Meets::not_known ? Json() : Json(place.meets == Meets::yes);
  json["outcome"] = passes.at(place.pass).outcome;
  return json;
}

/// Where the first line of check says no, seen from the side on which most is well.
Json check_json(const KeyLimit &limit)
{
  if (limit.check.empty())
    return {};
  Json json     = Json::object();
  json["value"] = nullptr;
  json["line"]  = nullptr;
  json["says"]  = check_words(limit);
  for (std::size_t i = 0; i < limit.check.size(); ++i)
  {
    const CheckStretch &stretch = limit.check[i];
    if (stretch.verdict != Verdict::no || limit.check.size() == 1)
      continue;
    json["value"] = i == 0 ? stretch.to : stretch.from;
    json["line"]  = stretch.line;
    break;
  }
  return json;
}
} // namespace

bool is_open(const KeyLimit &limit)
{
  for (const LimitChange &change : limit.changes)
    if (change.undecided > 0 &&
        change.above.value - change.below.value > limit.range.within * (1 + 1e-9))
      return true;
  // Between two places of one side, or at an end: a change may hide there.
  for (const LimitPlace &blank : limit.undecided)
  {
    const bool at_change = std::any_of(limit.changes.begin(), limit.changes.end(),
                                       [&](const LimitChange &change) {
                                         return change.below.value < blank.value &&
                                                blank.value < change.above.value;
                                       });
    if (!at_change)
      return true;
  }
  return false;
}

std::string limit_text(const std::vector<KeyLimit> &limits, const StudyCondition &condition,
                       const std::vector<StudyPass> &passes, const StudyCase &base,
                       const UnitSystem units)
{
  std::string text =
      "LIMIT until " + condition.text() +
      (condition.text() == condition.words() ? "" : ": " + condition.words()) + "\n";
  for (const KeyLimit &limit : limits)
    text += key_text(limit, condition, passes, units);
  for (const KeyLimit &limit : limits)
  {
    if (limit.changes.empty())
      continue;
    const LimitChange &change = limit.changes.front();
    const LimitPlace &good = change.below.meets == Meets::yes ? change.below : change.above;
    text +=
        "\nNothing is known between the two sides of a change. Use the side where the "
        "condition holds,\n"
        "with a margin for differences in plate, grease and fixture. To see that pass:\n"
        "  " +
        base.push_command({limit.key}, {{inside_value(limit.key, good.value)}}) + "\n";
    if (const StudyPass &pass = passes.at(good.pass);
        pass.outcome == "through" && !is_sound(pass))
      text += "That pass is through but not sound (see its events and accuracy above). "
              "--until sound\nfinds the limit of sound passes.\n";
    break;
  }
  return text;
}

std::string limit_json(const std::vector<KeyLimit> &limits, const StudyCondition &condition,
                       const std::vector<StudyPass> &passes)
{
  Json json      = Json::object();
  json["until"]  = condition.text();
  json["limits"] = Json::array();
  for (const KeyLimit &limit : limits)
  {
    Json one       = Json::object();
    one["key"]     = limit.key.key;
    one["from"]    = inside_value(limit.key, limit.range.from);
    one["to"]      = inside_value(limit.key, limit.range.to);
    one["within"]  = limit.range.within * limit.key.scale;
    one["changes"] = Json::array();
    for (const LimitChange &change : limit.changes)
      one["changes"].push_back({{"below", place_json(limit.key, change.below, passes)},
                                {"above", place_json(limit.key, change.above, passes)},
                                {"undecided", change.undecided}});
    one["undecided"] = Json::array();
    for (const LimitPlace &place : limit.undecided)
      one["undecided"].push_back(place.pass);
    one["check"] = check_json(limit);
    json["limits"].push_back(one);
  }
  return json_text(json);
}
} // namespace throughbend
