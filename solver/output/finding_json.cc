#include "solver/output/finding_json.h"

#include <stdexcept>

namespace throughbend
{
namespace
{
const char *member_of(const Evidence::Measure measure)
{
  switch (measure)
  {
  case Evidence::Measure::length:
    return "length_mm";
  case Evidence::Measure::room:
    return "room_mm";
  case Evidence::Measure::force:
    return "force_N";
  case Evidence::Measure::force_rise:
    return "force_rise_N_per_mm";
  case Evidence::Measure::pressure:
    return "pressure_MPa";
  case Evidence::Measure::angle:
    return "angle_deg";
  case Evidence::Measure::words:
    break;
  }
  throw std::logic_error("words measure nothing");
}

Json event_json(const PassEvent &event)
{
  Json json = Json::object();
  json.put("kind", to_text(event.kind));
  json.put("where", Json::known(event.where));
  json.put("from_travel_mm", event.from);
  json.put("to_travel_mm", event.to);
  json.put("ram_force_before_N", event.force_before);
  json.put("largest_ram_force_N", event.largest_force);
  json.put("largest_ram_force_travel_mm", event.at);
  json.put("largest_tool_force_N", event.tool_force);
  return json;
}

Json beyond_json(const BeyondCapacity &beyond)
{
  Json json = Json::object();
  json.put("ends", to_text(beyond.end));
  json.put("travel_mm", beyond.travel);
  json.put("force_it_takes_N", beyond.force);
  json.put("force_it_takes_travel_mm", beyond.force_at);
  json.put("force_it_takes_ripple_N", beyond.force_band);
  json.put("largest_shoulder_force_N", beyond.shoulder);
  json.put("largest_frame_force_N", beyond.frame);
  json.put("peak_outer_strain_log", beyond.outer_strain);
  return json;
}
} // namespace

/// The evidence with its numbers apart, for readers of either family of units: {1} in the
/// words is the number of member 1.
Json account_json(const Evidence &account)
{
  std::string words;
  Json        numbers = Json::object();
  int         n       = 0;
  for (const Evidence::Piece &piece : account.pieces())
    if (piece.measure == Evidence::Measure::words)
      words += piece.words;
    else
    {
      const std::string place = std::to_string(++n);
      words += "{" + place + "}";
      numbers.put(place, Json::object().put(member_of(piece.measure), piece.value));
    }
  return numbers.put("words", words);
}

Json finding_json(const Finding &finding)
{
  Json json = Json::object();
  json.put("outcome", to_text(finding.outcome));
  json.put("verdict", account_json(finding.verdict));
  json.put("close", Json::truth(finding.close));
  json.put("jam", finding.jam ? Json(to_text(*finding.jam)) : Json());
  json.put("held_by", finding.held ? Json(to_text(*finding.held)) : Json());
  json.put("where", Json::known(finding.where));
  json.put("travel_mm", finding.travel);
  json.put("ram_force_N", finding.force);
  json.put("evidence", finding.evidence);
  if (!finding.account.empty())
    json.put("account", account_json(finding.account));
  json.put("beyond_capacity", finding.beyond ? beyond_json(*finding.beyond) : Json());
  Json events = Json::list();
  for (const PassEvent &event : finding.events)
    events.add(event_json(event));
  json.put("events", events);
  return json;
}
} // namespace throughbend
