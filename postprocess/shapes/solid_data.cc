#include "postprocess/shapes/solid_data.h"

#include "postprocess/html/html_text.h"
#include "postprocess/shapes/packed_numbers.h"
#include "postprocess/shapes/shape_scale.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// Frame plates, deep shoulders and the plunger's body reach far beyond the coupon: of
/// those as much as tells what they are.
std::vector<PlaneVector> cut_outline(const DrawnTool &tool, const SolidScale &scale)
{
  const double length = scale.high[0] - std::min(0., scale.low[0]);
  double       bottom = scale.low[1] - 0.1 * length, top = scale.high[1] + 0.1 * length;
  if (tool.is_plunger)
  {
    double nose = tool.outline.front().y, reach = 0;
    for (const PlaneVector &p : tool.outline)
    {
      nose  = std::min(nose, p.y);
      reach = std::max(reach, std::abs(p.x));
    }
    bottom = nose;
    top    = nose + std::max(3 * reach, 0.5 * length);
  }
  std::vector<PlaneVector> outline = tool.outline;
  for (PlaneVector &p : outline)
    p.y = std::clamp(p.y, bottom, top);
  return outline;
}

Json box_json(const std::array<double, 3> &corner)
{
  Json list = Json::array();
  for (const double side : corner)
    list.push_back(side);
  return list;
}
} // namespace

SolidScale solid_scale(const PassShapes &shapes)
{
  SolidScale scale;
  double     axial = 0, plastic = 0;
  bool       first = true;
  for (const Shape &shape : shapes.shapes)
  {
    for (const std::array<double, 3> &p : shape.solid.points)
    {
      for (std::size_t d = 0; d < 3; ++d)
      {
        scale.low[d]  = first ? p[d] : std::min(scale.low[d], p[d]);
        scale.high[d] = first ? p[d] : std::max(scale.high[d], p[d]);
      }
      first = false;
    }
    for (const double strain : shape.solid.axial_strain)
      axial = std::max(axial, std::abs(strain));
    for (const double strain : shape.solid.plastic_strain)
      plastic = std::max(plastic, strain);
  }
  scale.largest_axial   = colour_end(axial);
  scale.largest_plastic = colour_end(plastic);
  return scale;
}

bool has_solid(const PassShapes &shapes)
{
  return !shapes.surface.empty() && shapes.surface.kept.size() <= 0xffff;
}

Json solid_json(const PassShapes &shapes, const SolidScale &scale)
{
  Json tools = Json::array();
  for (const DrawnTool &tool : shapes.tools)
  {
    if (tool.outline.empty())
      continue;
    Json outline = Json::array();
    for (const PlaneVector &p : cut_outline(tool, scale))
      for (const double value : {p.x, p.y})
        outline.push_back(rounded(value, 1. / 256)); // exact in few digits
    tools.push_back({{"plunger", tool.is_plunger},
                     {"half_width", rounded(tool.half_width, 1. / 256)},
                     {"outline", outline}});
  }
  Json json     = Json::object();
  json["low"]   = box_json(scale.low);
  json["high"]  = box_json(scale.high);
  json["faces"] = packed_places(shapes.surface.faces);
  json["edges"] = packed_places(shapes.surface.edges);
  json["tools"] = tools;
  json["axial_map"] =
      map_json(ColourMap::diverging, -scale.largest_axial, scale.largest_axial);
  json["plastic_map"] = map_json(ColourMap::sequential, 0, scale.largest_plastic);
  return json;
}

void add_solid_shape(Json &moment, const SolidShape &shape, const SolidScale &scale)
{
  std::string bytes;
  for (const std::array<double, 3> &p : shape.points)
    for (std::size_t d = 0; d < 3; ++d)
    {
      const double span = scale.high[d] - scale.low[d];
      add_word(bytes, share_of(span > 0 ? (p[d] - scale.low[d]) / span : 0, 0xffff));
    }
  moment["solid"] = base64(bytes);
  moment["solid_axial"] =
      packed_strains(shape.axial_strain, -scale.largest_axial, scale.largest_axial);
  moment["solid_plastic"] = packed_strains(shape.plastic_strain, 0, scale.largest_plastic);
}

std::size_t solid_bytes(const PassShapes &shapes)
{
  return has_solid(shapes) ? 8 * shapes.surface.kept.size() * 4 / 3 + 60 : 0;
}
} // namespace throughbend
