#include "postprocess/words/check_json.h"

#include "inputs/text/json.h"
#include "postprocess/words/caution.h"

#include <nlohmann/json.hpp>

namespace throughbend
{
namespace
{
constexpr double degrees = 180 / 3.14159265358979323846;

const char *unit_of(const Measure measure)
{
  switch (measure)
  {
  case Measure::length:
    return "mm";
  case Measure::force:
    return "N";
  case Measure::line_load:
    return "N/mm";
  case Measure::stress:
    return "MPa";
  case Measure::energy:
    return "N mm";
  case Measure::speed:
    return "m/s";
  case Measure::angle:
    return "deg";
  case Measure::share:
  case Measure::count:
    break;
  }
  return "1";
}

const char *verdict_word(const Verdict verdict)
{
  switch (verdict)
  {
  case Verdict::ok:
    return "ok";
  case Verdict::close:
    return "close";
  case Verdict::no:
    return "no";
  case Verdict::figure:
    break;
  }
  return "figure";
}

Json deciding_json(const Weighed &number)
{
  return {
      {"words", number.words}, {"value", number.value}, {"unit", unit_of(number.measure)}};
}

Json line_json(const ScreenLine &line, const std::string &section)
{
  Json json = {{"key", line.key},
               {"section", section},
               {"quantity", line.quantity},
               {"value", line.value},
               {"unit", unit_of(line.measure)}};
  if (line.low && line.high)
  {
    json["low"]  = *line.low;
    json["high"] = *line.high;
  }
  json["verdict"] = verdict_word(line.verdict);
  if (line.against)
    json["against"] = deciding_json(*line.against);
  if (line.also)
    json["also"] = deciding_json(*line.also);
  if (!line.shown.empty())
    json["shown"] = line.shown;
  if (!line.note.empty())
    json["note"] = line.note;
  json["formula"] = line.formula.name;
  json["source"]  = line.formula.source;
  json["limits"]  = line.formula.limits;
  return json;
}

Json rule_json(const RuleComparison &comparison)
{
  const FixtureRule &rule = comparison.by_rule.rule;
  Json               rows = Json::array();
  for (const ComparisonRow &row : comparison.rows)
  {
    const char *const unit = row.kind == UnitKind::length   ? "mm"
                             : row.kind == UnitKind::stress ? "MPa"
                                                            : "1";
    rows.push_back({{"quantity", row.words},
                    {"key", row.key},
                    {"value", row.ours},
                    {"rule", row.rules},
                    {"unit", unit},
                    {"verdict", to_text(row.agreement)},
                    {"remark", row.remark},
                    {"known", to_text(row.how)}});
  }
  return {{"rule", rule.rule},
          {"standard", rule.standard},
          {"edition", rule.edition},
          {"clause", rule.clause},
          {"tolerance", comparison.tolerance},
          {"verdict", to_text(comparison.worst())},
          {"rows", rows}};
}
} // namespace

std::string check_json(const Screening &screening)
{
  Json lines = Json::array();
  for (const ScreenSection &section : screening.sections)
    for (const ScreenLine &line : section.lines)
      lines.push_back(line_json(line, section.title));
  Json force = Json::array();
  for (const ForcePoint &p : screening.force)
    force.push_back({{"travel_mm", p.travel},
                     {"leg_angle_deg", p.leg_angle * degrees},
                     {"low_N", p.force.low},
                     {"value_N", p.force.value},
                     {"high_N", p.force.high}});
  Json json = {{"title", screening.title},
               {"verdict", verdict_word(screening.worst())},
               {"lines", lines},
               {"force", force}};
  if (screening.rule)
    json["rule"] = rule_json(*screening.rule);
  json["not_cleared"] = screening.not_cleared;
  json["left_out"]    = screening.cautions;
  json["only_push"]   = screening.only_push;
  json["caution"]     = caution_text();
  return json_text(json) + '\n';
}
} // namespace throughbend
