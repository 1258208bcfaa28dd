#include "postprocess/runs/run_table.h"

#include "inputs/keys/differing_keys.h"
#include "inputs/keys/option_table.h"
#include "inputs/text/csv_table.h"
#include "inputs/text/plain_text.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/text_columns.h"
#include "inputs/units/table_unit.h"
#include "postprocess/runs/account_text.h"
#include "postprocess/runs/run_badge.h"
#include "postprocess/runs/run_events.h"
#include "postprocess/runs/run_standing.h"
#include "postprocess/runs/run_stretch.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <set>

namespace throughbend
{
namespace
{
const std::string not_known = "-";

/// Heads of the answers, always there and in this order: is_run_table knows a table by
/// them.
constexpr std::array<const char *, 7> answer_heads = {
    "state", "outcome", "held", "beyond", "events", "metal", "accuracy"};
constexpr std::array<const char *, 4> origin_heads = {"version", "git_revision",
                                                      "case_hash", "verdict"};

/// Members of run.json that people compare.
const std::vector<std::string> &usual_figures()
{
  static const std::vector<std::string> paths = []
  {
    std::vector<std::string> list;
    for (const char *name :
         {"peak_ram_force_N", "peak_ram_force_travel_mm", "peak_ram_force_ripple_N",
          "ram_capacity_N", "capacity_margin", "largest_travel_mm", "ram_stroke_mm",
          "stroke_margin", "peak_outer_strain_log", "peak_outer_elongation",
          "peak_face_strain_log", "peak_face_elongation", "nominal_elongation",
          "peak_outer_strain_position_mm", "peak_outer_strain_travel_mm",
          "largest_plastic_strain", "largest_nose_gap_mm", "largest_walk_mm"})
      list.push_back(std::string("key_figures.") + name);
    for (const char *path : {"finding.beyond_capacity.travel_mm",
                             "finding.beyond_capacity.force_it_takes_N",
                             "finding.beyond_capacity.force_it_takes_travel_mm",
                             "finding.beyond_capacity.largest_shoulder_force_N",
                             "finding.beyond_capacity.largest_frame_force_N",
                             "fit.nose_gap_end_mm",
                             "across_the_width.nose_gap_mid_width_end_mm",
                             "across_the_width.nose_gap_edge_end_mm",
                             "fit.wrap_end_deg",
                             "fit.wire_diameter_mm",
                             "fit.wire_goes_in",
                             "convex_face.at_end.gauge_mean_elongation",
                             "convex_face.at_end.weld_and_haz_margin_mm",
                             "convex_face.at_end.zones.base.peak_elongation",
                             "convex_face.at_end.zones.left_haz.peak_elongation",
                             "convex_face.at_end.zones.weld.peak_elongation",
                             "convex_face.at_end.zones.right_haz.peak_elongation",
                             "flaws.flaw.largest_opening_mm",
                             "flaws.flaw2.largest_opening_mm",
                             "flaws.flaw3.largest_opening_mm",
                             "release.left_angle_loaded_deg",
                             "release.right_angle_loaded_deg",
                             "release.left_angle_free_deg",
                             "release.right_angle_free_deg",
                             "release.left_springback_deg",
                             "release.right_springback_deg",
                             "release.ejection_speed_bound_m_per_s",
                             "error_bars.force_N.numerics.down",
                             "error_bars.force_N.numerics.up",
                             "error_bars.force_N.numerics.whole",
                             "error_bars.force_N.metal_and_friction.down",
                             "error_bars.force_N.metal_and_friction.up",
                             "error_bars.force_N.metal_and_friction.whole",
                             "error_bars.outer_strain_log.numerics.down",
                             "error_bars.outer_strain_log.numerics.up",
                             "error_bars.outer_strain_log.numerics.whole",
                             "error_bars.outer_strain_log.metal_and_friction.down",
                             "error_bars.outer_strain_log.metal_and_friction.up",
                             "error_bars.outer_strain_log.metal_and_friction.whole",
                             "numerical_quality.worst_energy_error",
                             "numerical_quality.worst_equilibrium_error",
                             "numerical_quality.deepest_penetration_per_thickness",
                             "numerical_quality.worst_force_ripple",
                             "effort.cells",
                             "effort.dofs",
                             "effort.wall_time_s.total"})
      list.emplace_back(path);
    return list;
  }();
  return paths;
}

bool begins(const std::string &text, const std::string &with)
{
  return text.compare(0, with.size(), with) == 0;
}

/// A number or truth of run.json that `all` gives a column: no part of a sentence or list,
/// no cost, nothing of the case.
bool is_figure(const RunRecord &run, const std::string &path)
{
  const JsonMember::Kind kind = run.summary.kind(path);
  if (kind != JsonMember::Kind::number && kind != JsonMember::Kind::truth)
    return false;
  // Names that a run writes. What else stands in a spoilt file is no head of a column.
  if (path.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                             "0123456789_.") != std::string::npos)
    return false;
  for (const char *group :
       {"key_figures.", "fit.", "convex_face.", "flaws.", "across_the_width.", "release.",
        "numerical_quality.worst", "numerical_quality.deepest",
        "numerical_quality.regularisation", "error_bars.force_N.",
        "error_bars.outer_strain_log.", "finding.beyond_capacity.", "finding.travel_mm",
        "finding.ram_force_N", "finding.close", "tool_loads.", "effort."})
    if (begins(path, group))
      return true;
  return false;
}

std::string head_of(const std::string &path)
{
  const std::string group = "key_figures.";
  return begins(path, group) ? path.substr(group.size()) : path;
}

/// Paths that any run with a finding has, the usual ones first and in their order.
std::vector<std::string> figure_paths(const std::vector<RunRecord> &runs,
                                      const FigureChoice            choice)
{
  std::set<std::string> there;
  for (const RunRecord &run : runs)
    if (has_finding(run))
      for (const std::string &path : run.summary.paths())
        if (is_figure(run, path))
          there.insert(path);
  std::vector<std::string> paths;
  for (const std::string &path : usual_figures())
    if (there.erase(path) > 0)
      paths.push_back(path);
  if (choice == FigureChoice::all)
    paths.insert(paths.end(), there.begin(), there.end());
  return paths;
}

/// As few digits as read back exactly; of common sizes without an exponent.
std::string number_cell(const double value)
{
  if (!std::isfinite(value))
    return not_known;
  const double size = std::abs(value);
  if (size != 0 && (size < 1e-3 || size >= 1e15))
    return number_text(value);
  std::array<char, 64> text{};
  const auto           end =
      std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed)
          .ptr;
  return {text.data(), end};
}

std::string figure_cell(const RunRecord &run, const std::string &path)
{
  const bool released = begins(path, "release.");
  if (!has_finding(run) || !run.summary.has(path) ||
      (released && !run.truth("release.completed").value_or(false)))
    return not_known;
  // What was followed without coming to an end is no force that it takes.
  if (begins(path, "finding.beyond_capacity.force_it_takes") &&
      run.word("finding.beyond_capacity.ends") != "through")
    return not_known;
  if (run.summary.kind(path) == JsonMember::Kind::truth)
    return *run.truth(path) ? "true" : "false";
  return number_cell(run.number(path));
}

std::string key_head(const Option &option)
{
  if (const auto *const number = std::get_if<NumberSlot>(&option.slot))
    if (const std::string unit = table_unit(number->kind).name; !unit.empty())
      return option.key() + " [" + unit + "]";
  const bool plain = std::holds_alternative<NumberSlot>(option.slot) ||
                     std::holds_alternative<CountSlot>(option.slot);
  return option.key() + (plain ? " [-]" : "");
}

std::string key_cell(const DifferingKey &key, const std::size_t i, const RunRecord &run)
{
  const std::string &text = key.values[i];
  if (!run.known_case || text == not_known)
    return not_known;
  if (const auto *const number = std::get_if<NumberSlot>(&key.option->slot))
  {
    Case copy = *run.known_case;
    return number_cell(table_unit(number->kind).of(number->at(copy)));
  }
  return std::holds_alternative<CountSlot>(key.option->slot) ? text : text_cell(text);
}

std::string word_cell(const std::string &word)
{
  return word.empty() ? not_known : text_cell(word);
}

std::string held_by(const RunRecord &run)
{
  const std::string jam = run.word("finding.jam");
  return jam.empty() ? run.word("finding.held_by") : jam;
}

std::string event_words(const RunRecord &run)
{
  std::string words;
  for (const RunEvent &event : run_events(run))
    words += (words.empty() ? "" : "; ") + event.name();
  return words;
}

/// Answers of a run as words; those of one without a finding are not known.
std::vector<std::string> answers_of(const RunRecord &run)
{
  const bool        found = has_finding(run);
  const std::string state = run.word("state"), outcome = run.word("finding.outcome");
  const auto        if_found = [&](const std::string &word) { return found ? word : ""; };
  return {state,
          found || outcome == "undecided" ? outcome : "",
          if_found(held_by(run)),
          if_found(run.word("finding.beyond_capacity.ends")),
          if_found(event_words(run)),
          if_found(run.word("metal.answer")),
          run.word("numerical_quality.accuracy")};
}

/// Keys that differ among the runs whose case is known; "not known" for the others.
std::vector<DifferingKey> keys_of(const std::vector<RunRecord> &runs)
{
  std::vector<const Case *>       known;
  const std::vector<const Case *> cases = cases_of(runs);
  std::copy_if(cases.begin(), cases.end(), std::back_inserter(known),
               [](const Case *given) { return given != nullptr; });
  std::vector<DifferingKey> keys = differing_keys(known);
  for (DifferingKey &key : keys)
    for (std::size_t i = 0; i < cases.size(); ++i)
      if (cases[i] == nullptr)
        key.values.insert(key.values.begin() + static_cast<std::ptrdiff_t>(i), not_known);
  return keys;
}
} // namespace

std::string table_csv(const std::vector<RunRecord> &runs, const FigureChoice figures)
{
  const std::vector<DifferingKey> keys  = keys_of(runs);
  const std::vector<std::string>  paths = figure_paths(runs, figures);
  std::vector<std::string>        heads = {"throughbend run"};
  for (const DifferingKey &key : keys)
    heads.push_back(key_head(*key.option));
  heads.insert(heads.end(), answer_heads.begin(), answer_heads.end());
  for (const std::string &path : paths)
    heads.push_back(head_of(path));
  heads.insert(heads.end(), origin_heads.begin(), origin_heads.end());
  std::string text = csv_line(heads);
  for (std::size_t i = 0; i < runs.size(); ++i)
  {
    const RunRecord         &run   = runs[i];
    std::vector<std::string> cells = {text_cell(run.folder.string())};
    for (const DifferingKey &key : keys)
      cells.push_back(key_cell(key, i, run));
    for (const std::string &answer : answers_of(run))
      cells.push_back(word_cell(answer));
    for (const std::string &path : paths)
      cells.push_back(figure_cell(run, path));
    for (const char *member : {"version", "git_revision", "case_hash"})
      cells.push_back(word_cell(run.word(std::string("made_with.") + member)));
    cells.push_back(word_cell(account_text(run, "finding.verdict", UnitSystem::metric)));
    text += csv_line(cells);
  }
  return text;
}

void check_row(const RunRecord &run)
{
  table_csv({run}, FigureChoice::all);
  table_text({run}, UnitSystem::metric);
}

bool is_run_table(const std::string &text)
{
  if (!begins(text, table_mark))
    return false;
  const CsvLines lines = csv_lines(text);
  if (lines.lines.empty())
    return false;
  const std::vector<std::string> &heads = lines.lines.front().cells;
  const auto                      answers =
      std::search(heads.begin(), heads.end(), answer_heads.begin(), answer_heads.end());
  if (answers == heads.end())
    return false;
  return std::all_of(heads.begin() + 1, answers,
                     [](const std::string &head)
                     {
                       const std::string   key    = head.substr(0, head.find(" ["));
                       const Option *const option = find_option(key);
                       return option != nullptr && key_head(*option) == head;
                     }) &&
         heads.size() > origin_heads.size() &&
         std::equal(origin_heads.begin(), origin_heads.end(),
                    heads.end() - static_cast<std::ptrdiff_t>(origin_heads.size())) &&
         std::none_of(answers, heads.end(),
                      [](const std::string &head)
                      { return head.find(' ') != std::string::npos; });
}

std::string table_text(const std::vector<RunRecord> &runs, const UnitSystem units)
{
  constexpr std::size_t     most_keys = 4, widest = 30; // that a terminal has room for
  std::vector<DifferingKey> keys = keys_of(runs);
  // A title is long, and the folder's name stands there.
  keys.erase(std::remove_if(keys.begin(), keys.end(),
                            [](const DifferingKey &key)
                            { return key.option->section == "case"; }),
             keys.end());
  const std::size_t shown = std::min(keys.size(), most_keys);
  const bool        beyond =
      std::any_of(runs.begin(), runs.end(),
                  [](const RunRecord &run) { return has_finding(run) && run_beyond(run); });
  std::vector<std::string> heads = {"run"};
  for (std::size_t k = 0; k < shown; ++k)
    heads.push_back(keys[k].option->key());
  for (const char *head : {"finding", "peak ram force"})
    heads.emplace_back(head);
  if (beyond)
    heads.emplace_back("force it takes");
  for (const char *head : {"elongation", "metal", "accuracy"})
    heads.emplace_back(head);
  TextColumns columns(heads);
  for (std::size_t i = 0; i < runs.size(); ++i)
  {
    const RunRecord         &run   = runs[i];
    const bool               found = has_finding(run);
    std::vector<std::string> cells = {shown_text(run.folder.string())};
    for (std::size_t k = 0; k < shown; ++k)
      cells.push_back(shown_text(clipped(keys[k].values[i], widest)));
    cells.push_back(found                                        ? finding_brief(run)
                    : run.word("finding.outcome") == "undecided" ? "undecided"
                                                                 : run.word("state"));
    const auto figure = [&](const double value, std::string (*text)(double, UnitSystem))
    { return found && std::isfinite(value) ? text(value, units) : not_known; };
    cells.push_back(figure(run.number("key_figures.peak_ram_force_N"), force_text));
    const auto further = run_beyond(run);
    if (beyond)
      cells.push_back(further && further->end == "through"
                          ? figure(further->force, force_text)
                          : not_known);
    cells.push_back(figure(std::expm1(run_stretch(run).largest),
                           [](const double share, UnitSystem)
                           { return percent_text(share); }));
    cells.push_back(metal_brief(run));
    cells.push_back(found ? run.word("numerical_quality.accuracy") : not_known);
    columns.add(cells);
  }
  std::string text = columns.text();
  if (keys.size() > shown)
    text += "  and " + std::to_string(keys.size() - shown) +
            (keys.size() - shown == 1 ? " more key differs: --out FILE has it.\n"
                                      : " more keys differ: --out FILE has them.\n");
  return text;
}
} // namespace throughbend
