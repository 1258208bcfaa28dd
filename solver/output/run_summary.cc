#include "solver/output/run_summary.h"

#include "inputs/json.h"
#include "solver/output/face_json.h"
#include "solver/output/finding_json.h"
#include "solver/output/whole_file.h"

#include <array>
#include <ctime>
#include <stdexcept>

namespace throughbend
{
namespace
{
Json figures_json(const KeyFigures &figures, const std::string &strain_remark)
{
  Json json = Json::object();
  json.put("peak_ram_force_N", figures.peak_force);
  json.put("peak_ram_force_travel_mm", figures.peak_force_at);
  json.put("peak_ram_force_ripple_N", figures.peak_force_band);
  json.put("ram_capacity_N", figures.capacity);
  json.put("capacity_margin", figures.force_margin);
  json.put("largest_travel_mm", figures.travel);
  json.put("ram_stroke_mm", figures.stroke);
  json.put("stroke_margin", figures.stroke_margin);
  json.put("peak_outer_strain_log", figures.outer_strain);
  json.put("peak_outer_elongation", figures.outer_elongation);
  json.put("nominal_elongation", figures.nominal_elongation);
  json.put("peak_outer_strain_position_mm", figures.outer_strain_at);
  json.put("peak_outer_strain_travel_mm", figures.outer_strain_travel);
  json.put("peak_outer_strain_remark", Json::known(strain_remark));
  json.put("largest_plastic_strain", figures.plastic_strain);
  json.put("largest_nose_gap_mm", figures.nose_gap);
  json.put("largest_walk_mm", figures.walk);
  return json;
}

Json fit_json(const KeyFigures &figures, const double wire)
{
  const std::optional<bool> goes_in = wire_goes_in(figures, wire);
  Json                      json    = Json::object();
  json.put("nose_gap_end_mm", figures.nose_gap_end);
  json.put("nose_gap_largest_mm", figures.nose_gap);
  json.put("wrap_end_deg", figures.wrap_end);
  json.put("wrap_largest_deg", figures.wrap);
  json.put("walk_end_mm", figures.walk_end);
  json.put("walk_largest_mm", figures.walk);
  json.put("wire_diameter_mm", wire > 0 ? Json(wire) : Json());
  json.put("wire_goes_in", goes_in ? Json::truth(*goes_in) : Json());
  return json;
}

Json flaws_json(const std::vector<FlawFigures> &flaws)
{
  Json all = Json::object();
  for (const FlawFigures &flaw : flaws)
  {
    const auto known_length = [](const std::optional<double> &length)
    { return length ? Json(*length) : Json(); };
    Json json = Json::object();
    json.put("at_convex_face", Json::truth(flaw.at_convex));
    json.put("largest_opening_mm", flaw.opening);
    json.put("largest_opening_travel_mm", flaw.opening_at);
    json.put("opening_limit_mm", flaw.limit);
    json.put("limit_passed_travel_mm", known_length(flaw.passed_at));
    json.put("opening_released_mm", known_length(flaw.free_opening));
    json.put("deepest_overlap_mm", flaw.overlap);
    json.put("overlap_released_mm", flaw.free_overlap);
    all.put(flaw.name, json);
  }
  return all;
}

Json release_json(const Release &release)
{
  Json json = Json::object();
  json.put("completed", Json::truth(release.completed));
  json.put("left_angle_loaded_deg", release.left_angle_loaded);
  json.put("right_angle_loaded_deg", release.right_angle_loaded);
  json.put("left_angle_free_deg", release.left_angle_free);
  json.put("right_angle_free_deg", release.right_angle_free);
  json.put("left_springback_deg", release.left_springback);
  json.put("right_springback_deg", release.right_springback);
  json.put("elastic_energy_loaded_N_mm", release.elastic_loaded);
  json.put("elastic_energy_free_N_mm", release.elastic_free);
  json.put("ejection_speed_bound_m_per_s", release.speed_bound);
  return json;
}

Json quality_json(const KeyFigures &figures, const std::optional<Finding> &finding)
{
  Json json = Json::object();
  if (finding)
  {
    json.put("accuracy", to_text(finding->accuracy.trust));
    Json reasons = Json::list();
    for (const Evidence &reason : finding->accuracy.reasons)
      reasons.add(account_json(reason));
    json.put("accuracy_reasons", reasons);
  }
  json.put("worst_energy_error", figures.energy_error);
  json.put("worst_energy_error_travel_mm", figures.energy_error_at);
  json.put("worst_equilibrium_error", figures.equilibrium_error);
  json.put("worst_equilibrium_error_travel_mm", figures.equilibrium_error_at);
  json.put("deepest_penetration_mm", figures.penetration);
  json.put("deepest_penetration_per_thickness", figures.penetration_share);
  json.put("worst_force_ripple", figures.ripple);
  json.put("worst_force_ripple_travel_mm", figures.ripple_at);
  json.put("regularisation_work_share", figures.regularisation_share);
  return json;
}

Json effort_json(const RunSummary &summary)
{
  Json json = Json::object();
  if (summary.figures)
  {
    json.put("steps", summary.figures->steps);
    json.put("jumps", summary.figures->jumps);
    json.put("iterations", summary.figures->iterations);
    json.put("refusals", summary.figures->refusals);
  }
  if (summary.effort)
  {
    const RunEffort &effort = *summary.effort;
    json.put("factorisations", effort.factorisations);
    json.put("cells", effort.cells);
    json.put("dofs", effort.dofs);
    Json wall = Json::object();
    wall.put("total", effort.wall.total);
    wall.put("assembly", effort.wall.assembly);
    wall.put("contact", effort.wall.contact);
    wall.put("factorisation", effort.wall.factorisation);
    wall.put("other", effort.wall.other());
    json.put("wall_time_s", wall);
  }
  return json;
}

Json origin_json(const RunOrigin &origin)
{
  Json json = Json::object();
  json.put("version", Json::known(origin.version));
  json.put("git_revision", Json::known(origin.git_revision));
  json.put("started", Json::known(origin.started));
  if (!origin.resumed.empty())
  {
    Json resumed = Json::list();
    for (const std::string &when : origin.resumed)
      resumed.add(when);
    json.put("resumed", resumed);
  }
  json.put("case_source", Json::known(origin.case_source));
  json.put("case_hash", Json::known(origin.case_hash));
  json.put("dimension", origin.dimension);
  json.put("model", Json::known(origin.model));
  json.put("ranks", origin.ranks);
  json.put("blas", Json::known(origin.blas));
  json.put("blas_threads", origin.blas_threads);
  Json libraries = Json::object();
  for (const auto &[name, version] : origin.libraries)
    libraries.put(name, version);
  json.put("libraries", libraries);
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
  Json json = Json::object();
  json.put("program", "throughbend"); // run_folder knows a run of ours by this member
  json.put("state", to_text(summary.state));
  json.put("title", Json::known(summary.origin.title));
  if (!summary.failure.empty())
    json.put("failure", summary.failure);
  if (summary.finding)
    json.put("finding", finding_json(*summary.finding));
  if (summary.metal)
    json.put("metal", Json::object()
                          .put("answer", to_text(summary.metal->verdict))
                          .put("account", account_json(summary.metal->account)));
  if (summary.figures)
  {
    json.put("key_figures", figures_json(*summary.figures, summary.strain_remark));
    json.put("fit", fit_json(*summary.figures, summary.wire_diameter));
  }
  if (summary.face_at_end || summary.face_at_peak)
    json.put("convex_face", convex_face_json(summary.face_at_end, summary.face_at_peak));
  if (!summary.flaws.empty())
  {
    json.put("flaws", flaws_json(summary.flaws));
    json.put("flaws_note", flaw_remark());
  }
  if (summary.figures && summary.figures->width)
    json.put("across_the_width", width_json(*summary.figures->width));
  if (!summary.tools.empty())
    json.put("tool_loads", tool_loads_json(summary.tools));
  if (summary.release)
    json.put("release", release_json(*summary.release));
  if (summary.figures)
    json.put("numerical_quality", quality_json(*summary.figures, summary.finding));
  if (summary.figures || summary.effort)
    json.put("effort", effort_json(summary));
  json.put("made_with", origin_json(summary.origin));
  if (!summary.origin.case_values.empty())
  {
    Json values = Json::object();
    for (const auto &[key, value] : summary.origin.case_values)
      values.put(key, value);
    json.put("case", values);
  }
  json.put("note",
           "A computed estimate, not an acceptance: the governing code and licensed "
           "practice decide.");
  return json.text() + '\n';
}

void write_run_summary(const std::filesystem::path &file, const RunSummary &summary)
{
  write_whole_file(file, summary_text(summary));
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
