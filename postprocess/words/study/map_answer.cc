#include "postprocess/words/study/map_answer.h"

#include "inputs/text/json.h"
#include "inputs/units/display_units.h"
#include "solver/study/file/pass_mark.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <utility>

namespace throughbend
{
namespace
{
/// Finding and doubts of a pass, in words.
std::string said_of(const StudyPass &pass)
{
  std::string said = map_finding(pass);
  if (!has_finding(pass))
    return said + (pass.accuracy == "broken" ? ", broken accuracy" : "");
  for (const std::string &doubt : doubts(pass))
    if (said.find(", " + doubt.substr(0, doubt.find(','))) == std::string::npos)
      said += ", " + doubt;
  return said;
}

/// The level nearest to the case's own value; nothing where that lies outside of the map.
std::optional<std::size_t> own_level(const std::vector<double> &levels, const double own)
{
  std::size_t best = 0;
  for (std::size_t i = 1; i < levels.size(); ++i)
    if (std::abs(levels[i] - own) < std::abs(levels[best] - own))
      best = i;
  const double step = levels.size() < 2 ? 0
                                        : (levels.back() - levels.front()) /
                                              static_cast<double>(levels.size() - 1);
  return own < levels.front() - step / 2 || own > levels.back() + step / 2
             ? std::nullopt
             : std::optional(best);
}

/// Grid place nearest to the case as it is, if it lies on the map.
std::optional<MapPlan::Index> own_place(const MapAnswer &map)
{
  MapPlan::Index place{};
  for (std::size_t d = 0; d < map.keys.size(); ++d)
  {
    const std::optional<std::size_t> level = own_level(map.levels[d], map.keys[d].own);
    if (!level)
      return std::nullopt;
    place[d] = *level;
  }
  return place;
}

/// The mark of the pass, or, where none was made, of that around which asks most to be
/// looked at, in small letters.
std::string cell_text(const MapPlan &plan, const std::vector<StudyPass> &passes,
                      const MapPlan::Index &index, const bool is_own)
{
  PassMark mark;
  for (const std::size_t number : plan.passes_around(index))
    if (const PassMark one = pass_mark(passes.at(number)); one.rank > mark.rank)
      mark = one;
  if (!plan.pass_at(index))
    for (char &letter : mark.letters)
      letter = static_cast<char>(std::tolower(letter));
  return fmt::format("{}{:<2}{}", is_own ? '[' : ' ', mark.letters, is_own ? ']' : ' ');
}

std::string rule_words(const StudyKey &key, const Range &range)
{
  const std::string unit = key.unit.empty() ? "" : " " + key.unit;
  return std::isinf(range.low) ? "up to " + shown_value(key, range.high) + unit
         : std::isinf(range.high)
             ? "from " + shown_value(key, range.low) + unit
             : shown_value(key, range.low) + " to " + shown_value(key, range.high) + unit;
}

std::string sheet_text(const MapAnswer &map, const MapPlan &plan,
                       const std::vector<StudyPass> &passes, const std::size_t k)
{
  const bool                          has_rows = map.keys.size() > 1;
  const std::size_t                   rows     = plan.levels(1);
  const std::optional<MapPlan::Index> own      = own_place(map);
  std::string                         text;
  for (std::size_t r = rows; r-- > 0;)
  {
    text += has_rows ? fmt::format("  {:>9} |", shown_value(map.keys[1], map.levels[1][r]))
                     : fmt::format("  {:>9} |", "");
    for (std::size_t i = 0; i < plan.levels(0); ++i)
      text += cell_text(plan, passes, {i, r, k}, own && *own == MapPlan::Index{i, r, k});
    text += '\n';
  }
  text += "            +" + std::string(4 * plan.levels(0), '-') + "\n             ";
  // Heads of columns need more room than a column has: every third.
  for (std::size_t i = 0; i < plan.levels(0); i += 3)
    text += fmt::format("{:<12}", shown_value(map.keys[0], map.levels[0][i]));
  while (text.back() == ' ')
    text.pop_back();
  return text + '\n';
}
} // namespace

std::string map_text(const MapAnswer &map, const MapPlan &plan,
                     const std::vector<StudyPass> &passes)
{
  const auto named = [](const StudyKey &key)
  { return key.key + (key.unit.empty() ? "" : " [" + key.unit + "]"); };
  std::string text = "MAP along " + named(map.keys[0]);
  if (map.keys.size() > 1)
    text += ", across (upward) " + named(map.keys[1]);
  text += '\n';
  for (std::size_t k = 0; k < plan.levels(2); ++k)
  {
    text += '\n';
    if (map.keys.size() > 2)
      text += map.keys[2].key + " = " + written_value(map.keys[2], map.levels[2][k]) + '\n';
    text += sheet_text(map, plan, passes, k);
  }
  struct Found
  {
    std::string letters;
    std::size_t count = 0;
  };
  std::map<std::pair<int, std::string>, Found> found;
  std::size_t                                  beyond = 0, width = 28;
  for (const StudyPass &pass : passes)
  {
    const PassMark    mark = pass_mark(pass);
    const std::string said = said_of(pass);
    Found            &same = found[{mark.rank, said}];
    same                   = {mark.letters, same.count + 1};
    width                  = std::max(width, said.size());
    beyond += pass.metal == "beyond" ? 1 : 0;
  }
  text += '\n';
  for (const auto &[order, same] : found)
    text += fmt::format("  {:<2} {:<{}} {} of {} passes\n", same.letters, order.second,
                        width, same.count, passes.size());
  if (beyond > 0)
    text += fmt::format("  !  metal beyond its stated limit  {} passes\n", beyond);
  text += own_place(map) ? "  [ ] nearest to the case itself\n"
                         : "  The case itself lies outside this map.\n";
  if (map.fill == MapFill::borders)
    text += fmt::format(
        "  small letters: not computed; outcome and metal as in all passes around, "
        "* as in any of them; {} of {} points computed.\n"
        "  A patch with another finding, smaller than 4 levels, is not seen "
        "inside them.\n",
        std::min(passes.size(), plan.size()), plan.size());
  for (std::size_t d = 0; d < map.keys.size(); ++d)
    if (map.rule[d])
      text += "  the case's rule: " + map.keys[d].key + " " +
              rule_words(map.keys[d], *map.rule[d]) + '\n';
  return text;
}

std::string map_json(const MapAnswer &map)
{
  Json json       = Json::object();
  json["grid"]    = Json::array();
  json["refined"] = map.fill == MapFill::borders;
  json["levels"]  = Json::object();
  json["rule"]    = Json::object();
  for (std::size_t d = 0; d < map.keys.size(); ++d)
  {
    json["grid"].push_back(map.levels[d].size());
    json["levels"][map.keys[d].key] = map.levels[d];
    if (map.rule[d])
      json["rule"][map.keys[d].key] = {
          std::isinf(map.rule[d]->low) ? Json() : Json(map.rule[d]->low),
          std::isinf(map.rule[d]->high) ? Json() : Json(map.rule[d]->high)};
  }
  return json_text(json);
}
} // namespace throughbend
