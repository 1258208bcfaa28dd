#include "postprocess/words/study/map_answer.h"

#include "inputs/text/json.h"
#include "inputs/units/display_units.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace throughbend
{
namespace
{
/// Letter of a finding; those of its kind that hold the coupon elsewhere have their own.
char letter_of(const std::string &finding)
{
  const auto begins   = [&](const char *word) { return finding.rfind(word, 0) == 0; };
  const bool hooked   = finding.find(", hooked") != std::string::npos;
  const bool squeezed = finding.find(", squeezed") != std::string::npos;
  if (finding.empty())
    return ' ';
  if (begins("through"))
    return 'T';
  if (begins("undecided"))
    return '?';
  if (begins("dropped"))
    return 'D';
  if (begins("stroke-out"))
    return 'E';
  return hooked ? 'H' : squeezed ? 'S' : begins("jammed") ? 'J' : 'C';
}

bool is_beyond(const std::string &finding)
{
  return finding.find(", metal beyond") != std::string::npos;
}

/// What stands behind the letter: the metal's answer, or that a pass that went through had
/// an event.
char remark_of(const std::string &finding)
{
  return is_beyond(finding) ? '!' : finding.rfind("through, ", 0) == 0 ? '*' : ' ';
}

std::string plain(const std::string &finding)
{
  return finding.substr(0, finding.find(", metal beyond"));
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

std::string cell_text(const MapPlan &plan, const MapPlan::Index &index, const bool is_own)
{
  const std::string finding = plan.finding_at(index);
  char              letter  = letter_of(finding);
  if (!plan.pass_at(index))
    letter = static_cast<char>(std::tolower(letter));
  return fmt::format("{}{}{}{}", is_own ? '[' : ' ', letter, remark_of(finding),
                     is_own ? ']' : ' ');
}

std::string rule_words(const StudyKey &key, const Range &range)
{
  const std::string unit = key.unit.empty() ? "" : " " + key.unit;
  return std::isinf(range.low) ? "up to " + shown_value(key, range.high) + unit
         : std::isinf(range.high)
             ? "from " + shown_value(key, range.low) + unit
             : shown_value(key, range.low) + " to " + shown_value(key, range.high) + unit;
}

std::string sheet_text(const MapAnswer &map, const MapPlan &plan, const std::size_t k)
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
      text += cell_text(plan, {i, r, k}, own && *own == MapPlan::Index{i, r, k});
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
    text += sheet_text(map, plan, k);
  }
  std::map<std::string, std::size_t> counts;
  std::size_t                        beyond = 0;
  for (const StudyPass &pass : passes)
  {
    ++counts[plain(map_finding(pass))];
    beyond += pass.metal == "beyond" ? 1 : 0;
  }
  text += '\n';
  for (const auto &[finding, count] : counts)
    text += fmt::format("  {}{} {:<28} {} of {} passes\n", letter_of(finding),
                        remark_of(finding), finding, count, passes.size());
  if (beyond > 0)
    text += fmt::format("  !  metal beyond its stated limit  {} passes\n", beyond);
  text += own_place(map) ? "  [ ] nearest to the case itself\n"
                         : "  The case itself lies outside this map.\n";
  if (map.fill == MapFill::borders)
    text +=
        fmt::format("  small letters: not computed, because all passes around agree; {} "
                    "of {} points computed.\n"
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
