#include "postprocess/animation_data.h"

#include "inputs/html_text.h"
#include "inputs/json.h"
#include "inputs/run_events.h"
#include "postprocess/colour_map.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace throughbend
{
namespace
{
/// Appends a 16-bit number, low byte first.
void add_word(std::string &bytes, const unsigned value)
{
  bytes += static_cast<char>(value & 0xff);
  bytes += static_cast<char>(value >> 8 & 0xff);
}

unsigned cut(const double share, const unsigned most)
{
  return static_cast<unsigned>(std::lround(std::clamp(share, 0., 1.) * most));
}

std::string coordinates(const std::vector<Vec2> &points, const ShapeScale &scale)
{
  std::string bytes;
  for (const Vec2 &p : points)
  {
    add_word(bytes, cut((p.x - scale.low.x) / (scale.high.x - scale.low.x), 0xffff));
    add_word(bytes, cut((p.y - scale.low.y) / (scale.high.y - scale.low.y), 0xffff));
  }
  return base64(bytes);
}

std::string strains(const std::vector<double> &values, const double low, const double high)
{
  std::string bytes;
  for (const double value : values)
    bytes += static_cast<char>(cut((value - low) / (high - low), 0xff));
  return base64(bytes);
}

template <std::size_t n>
std::string places(const std::vector<std::array<int, n>> &groups)
{
  std::string bytes;
  for (const std::array<int, n> &group : groups)
    for (const int place : group)
      add_word(bytes, static_cast<unsigned>(place));
  return base64(bytes);
}

double rounded(const double value, const double to)
{
  return std::round(value / to) * to;
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
    for (const Vec2 &p : tool.outline)
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

Json map_json(const ColourMap map, const double low, const double high)
{
  Json list = Json::array();
  for (const unsigned stop : stops(map))
    list.push_back(static_cast<int>(stop));
  return {{"low", low}, {"high", high}, {"stops", list}};
}
} // namespace

AnimationData animation_data(const RunRecord &run, const PassShapes &shapes,
                             const ShapeScale &scale, const ReaderUnits &units,
                             const std::size_t most_bytes)
{
  const std::size_t n = shapes.flat.size();
  if (shapes.empty() || n > 0xffff)
    return {};
  const std::size_t              shape_bytes = 6 * n * 4 / 3 + 60;
  const std::size_t              most = std::max<std::size_t>(2, most_bytes / shape_bytes);
  const std::vector<std::size_t> kept = kept_shapes(run, shapes, most);

  Json   list   = Json::array();
  double height = 0; // that any one shape needs
  for (const std::size_t i : kept)
  {
    const Shape &shape     = shapes.shapes[i];
    Json         item      = Json::object();
    item["travel"]         = rounded(shape.travel, 1. / 1024);
    item["released"]       = shape.hold == Hold::released;
    const ShapeScale level = level_scale(scale, shapes, shape);
    height                 = std::max(height, level.high.y - level.low.y);
    item["low"]            = rounded(level.low.y, 1. / 1024);
    item["points"]         = coordinates(shape.points, scale);
    item["axial"] = strains(shape.axial_strain, -scale.largest_axial, scale.largest_axial);
    item["plastic"] = strains(shape.plastic_strain, 0, scale.largest_plastic);
    list.push_back(item);
  }

  Json window = Json::array();
  for (const double side : {scale.low.x, scale.low.y, scale.high.x, scale.high.y})
    window.push_back(rounded(side, 1. / 1024));

  Json json        = Json::object();
  json["window"]   = window;
  json["height"]   = rounded(height, 1. / 1024);
  json["mirrored"] = shapes.part == ModelPart::right_half;
  json["cells"]    = places(shapes.cells);
  json["edges"]    = places(shapes.edges);
  json["shapes"]   = list;
  json["tools"]    = tools_json(shapes);
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
