#include "solver/record/finding_json.h"

#include <nlohmann/json.hpp>

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
  Json json                           = Json::object();
  json["kind"]                        = to_text(event.kind);
  json["where"]                       = known(event.where);
  json["from_travel_mm"]              = event.from;
  json["to_travel_mm"]                = event.to;
  json["ram_force_before_N"]          = event.force_before;
  json["largest_ram_force_N"]         = event.largest_force;
  json["largest_ram_force_travel_mm"] = event.at;
  json["largest_tool_force_N"]        = event.tool_force;
  return json;
}

Json beyond_json(const BeyondCapacity &beyond)
{
  Json json                        = Json::object();
  json["ends"]                     = to_text(beyond.end);
  json["travel_mm"]                = beyond.travel;
  json["force_it_takes_N"]         = beyond.force;
  json["force_it_takes_travel_mm"] = beyond.force_at;
  json["force_it_takes_ripple_N"]  = beyond.force_band;
  json["leg_ironed"]               = beyond.leg_ironed;
  json["force_it_takes_lack"] =
      beyond.leg_ironed && beyond.force_lack == 0 ? Json() : Json(beyond.force_lack);
  json["largest_shoulder_force_N"] = beyond.shoulder;
  json["largest_frame_force_N"]    = beyond.frame;
  json["peak_outer_strain_log"]    = beyond.face_strain;
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
      numbers[place][member_of(piece.measure)] = piece.value;
    }
  numbers["words"] = words;
  return numbers;
}

Json finding_json(const Finding &finding)
{
  Json json           = Json::object();
  json["outcome"]     = to_text(finding.outcome);
  json["verdict"]     = account_json(finding.verdict);
  json["close"]       = !finding.close.empty();
  json["jam"]         = finding.jam ? Json(to_text(*finding.jam)) : Json();
  json["held_by"]     = finding.held ? Json(to_text(*finding.held)) : Json();
  json["where"]       = known(finding.where);
  json["travel_mm"]   = finding.travel;
  json["ram_force_N"] = finding.force;
  json["evidence"]    = finding.evidence;
  if (!finding.account.empty())
    json["account"] = account_json(finding.account);
  json["beyond_capacity"] = finding.beyond ? beyond_json(*finding.beyond) : Json();
  Json events             = Json::array();
  for (const PassEvent &event : finding.events)
    events.push_back(event_json(event));
  json["events"] = events;
  return json;
}
} // namespace throughbend
