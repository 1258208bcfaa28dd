#include "postprocess/shapes/animation_data.h"

#include "inputs/text/json.h"
#include "postprocess/html/html_text.h"
#include "postprocess/runs/run_events.h"
#include "postprocess/shapes/packed_numbers.h"
#include "postprocess/shapes/solid_data.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
std::string coordinates(const std::vector<PlaneVector> &points, const ShapeScale &scale)
{
  std::string bytes;
  for (const PlaneVector &p : points)
  {
    add_word(bytes, share_of((p.x - scale.low.x) / (scale.high.x - scale.low.x), 0xffff));
    add_word(bytes, share_of((p.y - scale.low.y) / (scale.high.y - scale.low.y), 0xffff));
  }
  return base64(bytes);
}

Json numbers(const std::vector<double> &values, const double to)
{
  Json list = Json::array();
  for (const double value : values)
    list.push_back(rounded(value, to));
  return list;
}

/// Which shapes are kept.
std::vector<std::size_t> kept_shapes(const RunRecord &run, const PassShapes &shapes,
                                     const std::size_t most)
{
  const std::size_t        n    = shapes.shapes.size();
  std::vector<std::size_t> must = {0, shapes.nearest(run.peak_force_travel()),
                                   shapes.last_loaded(), n - 1};
  for (std::size_t k = 0; k < most; ++k)
    must.push_back(most >= n ? std::min(k, n - 1) : k * n / most);
  std::sort(must.begin(), must.end());
  must.erase(std::unique(must.begin(), must.end()), must.end());
  return must;
}

/// Numbers of a tool's outline, without the trail of digits that doubles would leave.
Json tools_json(const PassShapes &shapes)
{
  Json list = Json::array();
  for (const DrawnTool &tool : shapes.tools)
  {
    std::vector<double> numbers_of;
    for (const PlaneVector &p : tool.outline)
    {
      numbers_of.push_back(p.x);
      numbers_of.push_back(p.y);
    }
    Json item       = Json::object();
    item["plunger"] = tool.is_plunger;
    item["outline"] = numbers(numbers_of, 1. / 256); // exact in few digits
    list.push_back(item);
  }
  return list;
}
} // namespace

AnimationData animation_data(const RunRecord &run, const PassShapes &shapes,
                             const ShapeScale &scale, const ReaderUnits &units,
                             const std::size_t most_bytes)
{
  const std::size_t n = shapes.flat.size();
  if (shapes.empty() || n > 0xffff)
    return {};
  const std::size_t              shape_bytes = 6 * n * 4 / 3 + 60 + solid_bytes(shapes);
  const std::size_t              most = std::max<std::size_t>(2, most_bytes / shape_bytes);
  const std::vector<std::size_t> kept = kept_shapes(run, shapes, most);

  const SolidScale solid_range = solid_scale(shapes);
  Json             list        = Json::array();
  double           height      = 0; // that any one shape needs
  for (const std::size_t i : kept)
  {
    const Shape &shape     = shapes.shapes[i];
    Json         item      = Json::object();
    item["travel"]         = rounded(shape.travel, 1. / 1024);
    item["released"]       = shape.hold == Loading::released;
    const ShapeScale level = level_scale(scale, shapes, shape);
    height                 = std::max(height, level.high.y - level.low.y);
    item["low"]            = rounded(level.low.y, 1. / 1024);
    item["points"]         = coordinates(shape.points, scale);
    item["axial"] =
        packed_strains(shape.axial_strain, -scale.largest_axial, scale.largest_axial);
    item["plastic"] = packed_strains(shape.plastic_strain, 0, scale.largest_plastic);
    if (has_solid(shapes))
      add_solid_shape(item, shape.solid, solid_range);
    list.push_back(item);
  }

  Json window = Json::array();
  for (const double side : {scale.low.x, scale.low.y, scale.high.x, scale.high.y})
    window.push_back(rounded(side, 1. / 1024));

  Json json        = Json::object();
  json["window"]   = window;
  json["height"]   = rounded(height, 1. / 1024);
  json["mirrored"] = shapes.part == ModelPart::right_half;
  json["cells"]    = packed_places(shapes.cells);
  json["edges"]    = packed_places(shapes.edges);
  json["shapes"]   = list;
  json["tools"]    = tools_json(shapes);
  if (has_solid(shapes))
    json["solid"] = solid_json(shapes, solid_range);
  json["axial_map"] =
      map_json(ColourMap::diverging, -scale.largest_axial, scale.largest_axial);
  json["plastic_map"]   = map_json(ColourMap::sequential, 0, scale.largest_plastic);
  Json record           = Json::object();
  record["travel"]      = numbers(run.column("travel [mm]"), 1. / 1024);
  record["force"]       = numbers(run.column("ram force [N]"), 1. / 8);
  record["strain"]      = numbers(run.column("outer strain [-]"), 1. / 65536);
  record["left_angle"]  = numbers(run.column("left leg angle [deg]"), 1. / 256);
  record["right_angle"] = numbers(run.column("right leg angle [deg]"), 1. / 256);
  json["record"]        = record;
  Json events           = Json::array();
  for (const RunEvent &event : run_events(run))
    events.push_back({{"name", event.name()},
                      {"from", rounded(event.from, 1. / 1024)},
                      {"to", rounded(event.to, 1. / 1024)}});
  json["events"]    = events;
  json["first"]     = units.first() == UnitSystem::us ? "us" : "metric";
  const double peak = run.peak_force_travel(); // the page opens with what matters most
  json["start"]     = std::isfinite(peak) ? peak : shapes.shapes[kept.back()].travel;
  return {json_text(json), shapes.shapes.size() - kept.size()};
}
} // namespace throughbend
