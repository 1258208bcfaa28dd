#include "solver/record/face_json.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
void put_peak(Json &json, const FacePeak &peak)
{
  json["peak_strain_log"]  = peak.strain;
  json["peak_elongation"]  = peak.elongation();
  json["peak_position_mm"] = peak.position;
  json["peak_triaxiality"] = peak.triaxiality;
}

Json zone_json(const ZoneFigures &zone)
{
  Json json       = Json::object();
  json["from_mm"] = zone.from;
  json["to_mm"]   = zone.to;
  put_peak(json, zone.peak);
  json["mean_elongation"] = zone.mean_elongation;
  json["inside_bend_mm"]  = zone.inside_bend;
  json["limit"]           = zone.limit ? Json(zone.limit->value) : Json();
  json["limit_measure"]   = zone.limit ? Json(to_text(zone.limit->measure)) : Json();
  json["ductility_used"]  = zone.ductility_used;
  return json;
}

/// Of a model with width: the same face where it is stretched most across the width.
Json across_json(const FaceFigures &face)
{
  const AcrossFigures &across = *face.across;
  const auto           at     = [](const FacePeak &peak, double from_mid_width)
  {
    Json json = Json::object();
    put_peak(json, peak);
    json["from_mid_width_mm"] = from_mid_width;
    return json;
  };
  Json json         = Json::object();
  json["mid_width"] = at(face.peak, 0);
  json["free_edge"] = at(across.edge, across.edge_across);
  json["largest"]   = at(across.largest, across.largest_across);
  json["crown_stress_across_width_mid_width_MPa"] = across.crown_width_stress;
  json["crown_stress_note"] =
      "While the nose presses on the crown it also bends the width and stretches the "
      "convex face across it. When the crown lifts off the nose, the width springs "
      "back, and the surface stress may become compressive.";
  return json;
}

Json moment_json(const FaceFigures &face)
{
  Json json         = Json::object();
  json["travel_mm"] = face.travel;
  json["peak_zone"] = zone_name(face.peak.zone);
  put_peak(json, face.peak);
  json["peak_from_weld_centre_mm"] = face.from_weld_middle(face.peak.position);
  json["peak_from_fusion_line_mm"] = face.from_fusion_line(face.peak.position);
  json["peak_over_nominal"]        = face.over_nominal(face.peak.elongation());
  json["weld_peak_over_base_peak"] = face.over_base(FaceZone::weld);
  // fmax: a weld with its HAZ on one side only has one that is known.
  json["haz_peak_over_base_peak"] =
      std::fmax(face.over_base(FaceZone::left_haz), face.over_base(FaceZone::right_haz));
  json["gauge_mean_elongation"]   = face.gauge_mean;
  json["gauge_mean_over_nominal"] = face.over_nominal(face.gauge_mean);
  json["bend_from_mm"]            = face.bend_from;
  json["bend_to_mm"]              = face.bend_to;
  json["weld_and_haz_margin_mm"]  = face.weld_inside_bend;
  json["weld_and_haz_inside_bend"] =
      std::isnan(face.weld_inside_bend) ? Json() : Json(face.weld_inside_bend >= 0);
  if (face.across)
    json["across_width"] = across_json(face);
  Json zones = Json::object();
  for (const ZoneFigures &zone : face.zones)
    zones[zone_name(zone.peak.zone)] = zone_json(zone);
  json["zones"] = zones;
  return json;
}
} // namespace

Json convex_face_json(const std::optional<FaceFigures> &at_end,
                      const std::optional<FaceFigures> &at_peak_force)
{
  const FaceFigures &any  = at_end ? *at_end : *at_peak_force;
  Json               json = Json::object();
  json["gauge_length_mm"] = any.gauge_length;
  json["weld_centre_mm"]  = any.weld_middle;
  if (at_end)
    json["at_end"] = moment_json(*at_end);
  if (at_peak_force)
    json["at_peak_force"] = moment_json(*at_peak_force);
  return json;
}
} // namespace throughbend
