#include "solver/screening/check_json.h"

#include "inputs/caution.h"
#include "inputs/json.h"

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

Json line_json(const ScreenLine &line, const std::string &section)
{
  Json json = Json::object();
  json.put("key", line.key)
      .put("section", section)
      .put("quantity", line.quantity)
      .put("value", line.value)
      .put("unit", unit_of(line.measure));
  if (line.low && line.high)
    json.put("low", *line.low).put("high", *line.high);
  json.put("verdict", verdict_word(line.verdict));
  if (line.against)
    json.put("against", Json::object()
                            .put("words", line.against->words)
                            .put("value", line.against->value)
                            .put("unit", unit_of(line.against->measure)));
  if (line.also)
    json.put("also", Json::object()
                         .put("words", line.also->words)
                         .put("value", line.also->value)
                         .put("unit", unit_of(line.also->measure)));
  if (!line.shown.empty())
    json.put("shown", line.shown);
  if (!line.note.empty())
    json.put("note", line.note);
  json.put("formula", line.formula.name)
      .put("source", line.formula.source)
      .put("limits", line.formula.limits);
  return json;
}

Json words_json(const std::vector<std::string> &words)
{
  Json list = Json::list();
  for (const std::string &item : words)
    list.add(item);
  return list;
}

Json rule_json(const RuleComparison &comparison)
{
  const FixtureRule &rule = comparison.by_rule.rule;
  Json               rows = Json::list();
  for (const ComparisonRow &row : comparison.rows)
  {
    const char *const unit = row.kind == UnitKind::length   ? "mm"
                             : row.kind == UnitKind::stress ? "MPa"
                                                            : "1";
    rows.add(Json::object()
                 .put("quantity", row.words)
                 .put("key", row.key)
                 .put("value", row.ours)
                 .put("rule", row.rules)
                 .put("unit", unit)
                 .put("verdict", to_text(row.agreement))
                 .put("remark", row.remark)
                 .put("known", to_text(row.how)));
  }
  return Json::object()
      .put("rule", rule.rule)
      .put("standard", rule.standard)
      .put("edition", rule.edition)
      .put("clause", rule.clause)
      .put("tolerance", comparison.tolerance)
      .put("verdict", to_text(comparison.worst()))
      .put("rows", rows);
}
} // namespace

std::string check_json(const Screening &screening)
{
  Json lines = Json::list();
  for (const ScreenSection &section : screening.sections)
    for (const ScreenLine &line : section.lines)
      lines.add(line_json(line, section.title));
  Json force = Json::list();
  for (const ForcePoint &p : screening.force)
    force.add(Json::object()
                  .put("travel_mm", p.travel)
                  .put("leg_angle_deg", p.leg_angle * degrees)
                  .put("low_N", p.force.low)
                  .put("value_N", p.force.value)
                  .put("high_N", p.force.high));
  Json json = Json::object();
  json.put("title", screening.title)
      .put("verdict", verdict_word(screening.worst()))
      .put("lines", lines)
      .put("force", force);
  if (screening.rule)
    json.put("rule", rule_json(*screening.rule));
  json.put("not_cleared", words_json(screening.not_cleared))
      .put("left_out", words_json(screening.cautions))
      .put("only_push", words_json(screening.only_push))
      .put("caution", caution_text());
  return json.text() + '\n';
}
} // namespace throughbend
