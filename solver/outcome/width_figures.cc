#include "solver/outcome/width_figures.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace throughbend
{
std::optional<WidthFigures> width_figures(const std::vector<PassSample> &samples)
{
  std::optional<WidthFigures> found;
  for (const PassSample &sample : samples)
  {
    if (!sample.width || sample.kind == StepKind::release)
      continue;
    if (!found)
      found.emplace();
    WidthFigures     &figures = *found;
    const WidthShape &now     = *sample.width;
    figures.end               = now;
    if (!(sample.tool(tool_at::plunger).normal > 0))
      figures.end.nose_gap_middle = figures.end.nose_gap_edge =
          std::numeric_limits<double>::quiet_NaN();
    if (now.edge_strain > figures.edge_strain)
    {
      figures.edge_strain        = now.edge_strain;
      figures.edge_strain_at     = now.edge_strain_at;
      figures.edge_strain_travel = sample.travel;
    }
    if (now.largest_strain > figures.largest_strain)
    {
      figures.largest_strain = now.largest_strain;
      figures.largest_at     = now.largest_strain_at;
      figures.largest_across = now.largest_strain_across;
      figures.largest_travel = sample.travel;
    }
    figures.nose_gap_middle = std::max(figures.nose_gap_middle, now.nose_gap_middle);
    figures.nose_gap_edge   = std::max(figures.nose_gap_edge, now.nose_gap_edge);
    figures.convex_curl     = std::max(figures.convex_curl, now.convex_curl);
    figures.concave_curl    = std::max(figures.concave_curl, now.concave_curl);
    if (now.crown_on_nose)
    {
      figures.on_nose_stress = now.crown_width_stress;
      figures.on_nose_travel = sample.travel;
    }
  }
  return found;
}

Json width_json(const WidthFigures &figures)
{
  Json json                                           = Json::object();
  json["peak_edge_strain_log"]                        = figures.edge_strain;
  json["peak_edge_strain_position_mm"]                = figures.edge_strain_at;
  json["peak_edge_strain_travel_mm"]                  = figures.edge_strain_travel;
  json["peak_face_strain_log"]                        = figures.largest_strain;
  json["peak_face_strain_position_mm"]                = figures.largest_at;
  json["peak_face_strain_from_mid_width_mm"]          = figures.largest_across;
  json["peak_face_strain_travel_mm"]                  = figures.largest_travel;
  json["nose_gap_mid_width_end_mm"]                   = figures.end.nose_gap_middle;
  json["nose_gap_mid_width_largest_mm"]               = figures.nose_gap_middle;
  json["nose_gap_edge_end_mm"]                        = figures.end.nose_gap_edge;
  json["nose_gap_edge_largest_mm"]                    = figures.nose_gap_edge;
  json["convex_edge_curl_end_mm"]                     = figures.end.convex_curl;
  json["convex_edge_curl_largest_mm"]                 = figures.convex_curl;
  json["concave_edge_curl_end_mm"]                    = figures.end.concave_curl;
  json["concave_edge_curl_largest_mm"]                = figures.concave_curl;
  json["convex_width_end_mm"]                         = figures.end.convex_width;
  json["concave_width_end_mm"]                        = figures.end.concave_width;
  json["crown_stress_across_width_on_nose_MPa"]       = figures.on_nose_stress;
  json["crown_stress_across_width_on_nose_travel_mm"] = figures.on_nose_travel;
  json["crown_stress_across_width_end_MPa"]           = figures.end.crown_width_stress;
  json["note"] =
      "Strains are those of the convex face, at mid-width in key_figures. The gap at "
      "mid-width is the one that a wire or gauge finds; that at the edge has the curl "
      "of the concave face in it. The stress across the width at the crown is of the "
      "convex face at mid-width: the nose bends the width while it bears on the crown; "
      "once the crown lifts off, the width springs back and the stress at the surface "
      "may change its sign.";
  return json;
}
} // namespace throughbend
