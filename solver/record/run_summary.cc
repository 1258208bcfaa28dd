#include "solver/record/run_summary.h"

#include "inputs/text/json.h"
#include "inputs/text/whole_file.h"
#include "solver/record/face_json.h"
#include "solver/record/finding_json.h"
#include "solver/record/run_format.h"

#include <nlohmann/json.hpp>

#include <array>
#include <ctime>
#include <stdexcept>

namespace throughbend
{
namespace
{
Json figures_json(const KeyFigures &figures, const std::string &strain_remark)
{
  Json json                             = Json::object();
  json["peak_ram_force_N"]              = figures.peak_force;
  json["peak_ram_force_travel_mm"]      = figures.peak_force_at;
  json["peak_ram_force_ripple_N"]       = figures.peak_force_band;
  json["ram_capacity_N"]                = figures.capacity;
  json["capacity_margin"]               = figures.force_margin;
  json["largest_travel_mm"]             = figures.travel;
  json["ram_stroke_mm"]                 = figures.stroke;
  json["stroke_margin"]                 = figures.stroke_margin;
  json["peak_outer_strain_log"]         = figures.outer_strain;
  json["peak_outer_elongation"]         = figures.outer_elongation;
  json["peak_face_strain_log"]          = figures.face_strain;
  json["peak_face_elongation"]          = figures.face_elongation;
  json["nominal_elongation"]            = figures.nominal_elongation;
  json["peak_outer_strain_position_mm"] = figures.outer_strain_at;
  json["peak_outer_strain_travel_mm"]   = figures.outer_strain_travel;
  json["peak_outer_strain_remark"]      = known(strain_remark);
  json["largest_plastic_strain"]        = figures.plastic_strain;
  json["largest_nose_gap_mm"]           = figures.nose_gap;
  json["largest_walk_mm"]               = figures.walk;
  return json;
}

Json fit_json(const KeyFigures &figures, const double wire)
{
  const std::optional<bool> goes_in = wire_goes_in(figures, wire);
  Json                      json    = Json::object();
  json["nose_gap_end_mm"]           = figures.nose_gap_end;
  json["nose_gap_largest_mm"]       = figures.nose_gap;
  json["wrap_end_deg"]              = figures.wrap_end;
  json["wrap_largest_deg"]          = figures.wrap;
  json["walk_end_mm"]               = figures.walk_end;
  json["walk_largest_mm"]           = figures.walk;
  json["wire_diameter_mm"]          = wire > 0 ? Json(wire) : Json();
  json["wire_goes_in"]              = goes_in ? Json(*goes_in) : Json();
  return json;
}

Json flaws_json(const std::vector<FlawFigures> &flaws)
{
  Json all = Json::object();
  for (const FlawFigures &flaw : flaws)
  {
    const auto known_length = [](const std::optional<double> &length)
    { return length ? Json(*length) : Json(); };
    Json json                         = Json::object();
    json["at_convex_face"]            = flaw.at_convex;
    json["largest_opening_mm"]        = flaw.opening;
    json["largest_opening_travel_mm"] = flaw.opening_at;
    json["opening_limit_mm"]          = flaw.limit;
    json["limit_passed_travel_mm"]    = known_length(flaw.passed_at);
    json["opening_released_mm"]       = known_length(flaw.free_opening);
    json["deepest_overlap_mm"]        = flaw.overlap;
    json["overlap_released_mm"]       = flaw.free_overlap;
    all[flaw.name]                    = json;
  }
  return all;
}

Json release_json(const Release &release)
{
  Json json                            = Json::object();
  json["completed"]                    = release.completed;
  json["left_angle_loaded_deg"]        = release.left_angle_loaded;
  json["right_angle_loaded_deg"]       = release.right_angle_loaded;
  json["left_angle_free_deg"]          = release.left_angle_free;
  json["right_angle_free_deg"]         = release.right_angle_free;
  json["left_springback_deg"]          = release.left_springback;
  json["right_springback_deg"]         = release.right_springback;
  json["elastic_energy_loaded_N_mm"]   = release.elastic_loaded;
  json["elastic_energy_free_N_mm"]     = release.elastic_free;
  json["ejection_speed_bound_m_per_s"] = release.speed_bound;
  return json;
}

Json quality_json(const KeyFigures &figures, const std::optional<Finding> &finding)
{
  Json json = Json::object();
  if (finding)
  {
    json["accuracy"] = to_text(finding->accuracy.trust);
    Json reasons     = Json::array();
    for (const Evidence &reason : finding->accuracy.reasons)
      reasons.push_back(account_json(reason));
    json["accuracy_reasons"] = reasons;
  }
  json["worst_energy_error"]                = figures.energy_error;
  json["worst_energy_error_travel_mm"]      = figures.energy_error_at;
  json["worst_equilibrium_error"]           = figures.equilibrium_error;
  json["worst_equilibrium_error_travel_mm"] = figures.equilibrium_error_at;
  json["deepest_penetration_mm"]            = figures.penetration;
  json["deepest_penetration_per_thickness"] = figures.penetration_share;
  json["worst_force_ripple"]                = figures.ripple;
  json["worst_force_ripple_travel_mm"]      = figures.ripple_at;
  json["regularisation_work_share"]         = figures.regularisation_share;
  return json;
}

Json effort_json(const RunSummary &summary)
{
  Json json = Json::object();
  if (summary.figures)
  {
    json["steps"]      = summary.figures->steps;
    json["jumps"]      = summary.figures->jumps;
    json["iterations"] = summary.figures->iterations;
    json["refusals"]   = summary.figures->refusals;
  }
  if (summary.effort)
  {
    const RunEffort &effort = *summary.effort;
    json["factorisations"]  = effort.factorisations;
    json["cells"]           = effort.cells;
    json["dofs"]            = effort.dofs;
    Json wall               = Json::object();
    wall["total"]           = effort.wall.total;
    wall["assembly"]        = effort.wall.assembly;
    wall["contact"]         = effort.wall.contact;
    wall["factorisation"]   = effort.wall.factorisation;
    wall["other"]           = effort.wall.other();
    json["wall_time_s"]     = wall;
  }
  return json;
}

Json origin_json(const RunOrigin &origin)
{
  Json json            = Json::object();
  json["version"]      = known(origin.version);
  json["git_revision"] = known(origin.git_revision);
  json["started"]      = known(origin.started);
  if (!origin.resumed.empty())
  {
    Json resumed = Json::array();
    for (const std::string &when : origin.resumed)
      resumed.push_back(when);
    json["resumed"] = resumed;
  }
  json["case_source"]  = known(origin.case_source);
  json["case_hash"]    = known(origin.case_hash);
  json["dimension"]    = origin.dimension;
  json["model"]        = known(origin.model);
  json["ranks"]        = origin.ranks;
  json["blas"]         = known(origin.blas);
  json["blas_threads"] = origin.blas_threads;
  Json libraries       = Json::object();
  for (const auto &[name, version] : origin.libraries)
    libraries[name] = version;
  json["libraries"] = libraries;
  return json;
}
} // namespace

std::string to_text(const RunState state)
{
  switch (state)
  {
  case RunState::running:
    return "running";
  case RunState::finished:
    return "finished";
  case RunState::interrupted:
    return "interrupted";
  case RunState::failed:
    return "failed";
  }
  throw std::logic_error("there is no such state of a run");
}

std::string summary_text(const RunSummary &summary)
{
  Json json       = Json::object();
  json["program"] = "throughbend"; // run_folder knows a run of ours by this member
  json["format"]  = run_format;
  json["state"]   = to_text(summary.state);
  json["title"]   = known(summary.origin.title);
  if (!summary.failure.empty())
    json["failure"] = summary.failure;
  if (summary.finding)
    json["finding"] = finding_json(*summary.finding);
  if (summary.metal)
    json["metal"] = {{"answer", to_text(summary.metal->verdict)},
                     {"account", account_json(summary.metal->account)}};
  if (summary.figures)
  {
    json["key_figures"] = figures_json(*summary.figures, summary.strain_remark);
    json["fit"]         = fit_json(*summary.figures, summary.wire_diameter);
  }
  if (summary.face_at_end || summary.face_at_peak)
    json["convex_face"] = convex_face_json(summary.face_at_end, summary.face_at_peak);
  if (!summary.flaws.empty())
  {
    json["flaws"]      = flaws_json(summary.flaws);
    json["flaws_note"] = flaw_remark();
  }
  if (summary.figures && summary.figures->width)
    json["across_the_width"] = width_json(*summary.figures->width);
  if (!summary.tools.empty())
    json["tool_loads"] = tool_loads_json(summary.tools);
  if (summary.release)
    json["release"] = release_json(*summary.release);
  if (summary.figures)
    json["numerical_quality"] = quality_json(*summary.figures, summary.finding);
  if (summary.bars)
    json["error_bars"] = error_bars_json(*summary.bars);
  if (summary.figures || summary.effort)
    json["effort"] = effort_json(summary);
  json["made_with"] = origin_json(summary.origin);
  if (!summary.origin.case_values.empty())
  {
    Json values = Json::object();
    for (const auto &[key, value] : summary.origin.case_values)
      values[key] = value;
    json["case"] = values;
  }
  json["note"] = "A computed estimate, not an acceptance: the governing code and licensed "
                 "practice decide.";
  return json_text(json) + '\n';
}

void write_run_summary(const std::filesystem::path &file, const RunSummary &summary)
{
  write_durable_file(file, summary_text(summary), FolderLink::follow);
}

std::string time_stamp()
{
  const std::time_t    now = std::time(nullptr);
  std::tm              utc{};
  std::array<char, 32> text{};
  gmtime_r(&now, &utc);
  std::strftime(text.data(), text.size(), "%Y-%m-%dT%H:%M:%SZ", &utc);
  return text.data();
}
} // namespace throughbend
