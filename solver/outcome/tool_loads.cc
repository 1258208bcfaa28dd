#include "solver/outcome/tool_loads.h"

#include "inputs/case/zone_flow.h"
#include "solver/mechanics/line_contact.h"

#include <nlohmann/json.hpp>

#include <algorithm>

namespace throughbend
{
namespace
{
ToolLoad load_of(const Case &c, const std::vector<PassSample> &samples,
                 const ToolPlace place, const std::string &name, const double yield,
                 const double radius)
{
  ToolLoad load;
  load.tool       = name;
  load.yield      = yield;
  double strained = 0; // of the face that bears on it [-]
  for (const PassSample &sample : samples)
  {
    if (sample.kind == StepKind::release)
      continue;
    const ToolContact &tool = sample.tool(place);
    strained = std::max(strained, place == tool_at::plunger ? sample.concave_plastic_strain
                                                            : sample.plastic_strain);
    load.smoothed_pressure = std::max(load.smoothed_pressure, tool.smoothed_pressure);
    if (tool.line_load <= load.line_load)
      continue;
    load.line_load      = tool.line_load;
    load.at             = sample.travel;
    load.patch_length   = tool.patch_length;
    load.patch_pressure = tool.patch_pressure;
  }
  // Any zone of a weld may come to bear on it, and the face that does has been strained:
  // what it can bear then is the bound. Nor is it below what the mesh itself computes.
  const double bears = zone_stresses(c, std::max(bearing_strain, strained)).most;
  load.hertz_pressure =
      std::max(tool_bearing(load.line_load, radius, c.material, bears).pressure,
               load.smoothed_pressure);
  if (yield > 0)
    load.dent = load.hertz_pressure > denting_pressure(yield)
                    ? flattened_depth(load.line_load, radius, yield)
                    : 0.;
  return load;
}
} // namespace

bool ToolLoad::yields() const
{
  return yield > 0 && hertz_pressure > first_yield_pressure(yield);
}

std::vector<ToolLoad> tool_loads(const Case &c, const std::vector<PassSample> &samples)
{
  const Shoulders &s = c.fixture.shoulders;
  const Plunger   &p = c.fixture.plunger;
  const ToolLoad   left =
      load_of(c, samples, tool_at::left_shoulder, "left shoulder", s.yield, s.radius);
  const ToolLoad right =
      load_of(c, samples, tool_at::right_shoulder, "right shoulder", s.yield, s.radius);
  const ToolLoad nose =
      load_of(c, samples, tool_at::plunger, "plunger", p.yield, p.nose_radius);
  std::vector<ToolLoad> loads;
  for (const ToolLoad &load : {left.line_load > right.line_load ? left : right, nose})
    if (load.line_load > 0)
      loads.push_back(load);
  return loads;
}

Json tool_loads_json(const std::vector<ToolLoad> &loads)
{
  Json all = Json::array();
  for (const ToolLoad &load : loads)
  {
    Json json                          = Json::object();
    json["tool"]                       = load.tool;
    json["largest_line_load_N_per_mm"] = load.line_load;
    json["travel_mm"]                  = load.at;
    json["patch_length_mm"]            = load.patch_length;
    json["patch_pressure_MPa"]         = load.patch_pressure;
    json["smoothed_pressure_MPa"]      = load.smoothed_pressure;
    json["hertz_pressure_MPa"]         = load.hertz_pressure;
    json["yield_MPa"]                  = load.yield > 0 ? Json(load.yield) : Json();
    json["yields"]                     = load.yield > 0 ? Json(load.yields()) : Json();
    json["dent_mm"]                    = load.dent ? Json(*load.dent) : Json();
    all.push_back(json);
  }
  return all;
}
} // namespace throughbend
