#include "postprocess/words/finding_text.h"

#include "postprocess/words/margin_text.h"
#include "postprocess/words/weld_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace throughbend
{
namespace
{
/// The numbers of a half model, or of a body's quarter, hold on both sides.
bool is_half(const RunSummary &summary)
{
  return summary.origin.model == "half" || summary.origin.model == "quarter";
}

/// "1.2 mm left of the coupon's centre".
std::string place_text(const double position, const bool half, const UnitSystem units)
{
  const double close = 0.05; // [mm], shown as 0.0
  if (std::abs(position) < close)
    return "at the coupon's centre";
  if (half)
    return length_text(std::abs(position), units) +
           " from the coupon's centre, on both sides";
  return length_text(std::abs(position), units) + (position < 0 ? " left" : " right") +
         " of the coupon's centre";
}

/// Errors span decades: two significant digits rather than a fixed number.
std::string error_text(const double share)
{
  const double percent = 100 * share;
  const double size    = std::abs(percent);
  return decimal_text(percent, size >= 1      ? 1
                               : size >= 0.1  ? 2
                               : size >= 0.01 ? 3
                                              : 4) +
         " %";
}

/// "3.42 mm at the convex face at 41.2 mm of travel, past the limit of 3.0 mm from
/// 36.0 mm of travel on; 3.38 mm when released"
std::string opening_text(const FlawFigures &flaw, const UnitSystem units)
{
  constexpr double next_to_none = 0.005; // [mm], shown as 0.00
  if (flaw.opening < next_to_none)
    return "pressed shut all the way";
  std::string words =
      fine_length_text(flaw.opening, units) +
      (flaw.at_convex ? " open at the convex face" : " open at its widest") + ", at " +
      length_text(flaw.opening_at, units) + " of travel";
  if (flaw.passed_at)
    words += "; past the limit of " + length_text(flaw.limit, units) + " from " +
             length_text(*flaw.passed_at, units) + " of travel on";
  else if (flaw.at_convex)
    words += "; the limit of " + length_text(flaw.limit, units) + " is not reached";
  if (flaw.free_opening)
    words += "; " + fine_length_text(*flaw.free_opening, units) + " when released";
  return words;
}

/// "bears up to 0.520 kN per mm over 3.1 mm at 40.2 mm of travel, pressure 245 MPa; dented
/// ..."
/// `somewhere`: where it is largest across a body's width, not over all of it.
std::string load_text(const ToolLoad &load, const bool somewhere, const UnitSystem units)
{
  // Few points of contact make a patch too short for its load: then its length says
  // nothing.
  const bool  spread = load.patch_pressure <= load.hertz_pressure;
  std::string words  = "bears up to " + force_rise_text(load.line_load, units) +
                      (spread ? " over " + length_text(load.patch_length, units) : "") +
                      (somewhere ? " at one place of the width (elsewhere less)" : "") +
                      ", pressure at most " + stress_text(load.hertz_pressure, units) +
                      " by Hertz; ";
  if (!load.dent)
    return words + "whether this marks it is not known: its yield stress is not given";
  words += "yields at " + stress_text(load.yield, units) + ", ";
  if (*load.dent > 0)
    return words + "so it may be dented by up to " + fine_length_text(*load.dent, units);
  return words + (load.yields() ? "so it may yield below its face" : "so it shows no mark");
}

std::vector<FindingLine> figures(const RunSummary &summary, const UnitSystem units)
{
  std::vector<FindingLine> lines;
  // Of a pass without a step there is nothing to say; a broken figure of any other shows.
  const bool computed = summary.figures && (summary.figures->steps > 0 ||
                                            std::isfinite(summary.figures->peak_force));
  const bool through  = summary.finding && summary.finding->outcome == Outcome::through;
  if (computed)
  {
    const KeyFigures &key = *summary.figures;
    lines.push_back({"peak ram force",
                     force_text(key.peak_force, units) + " at " +
                         length_text(key.peak_force_at, units) + " of travel" +
                         (key.peak_force_band > 0
                              ? ", smooth course; the computed force ripples by " +
                                    force_text(key.peak_force_band, units) + " about it"
                              : "")});
    lines.push_back(
        {"ram capacity", force_text(key.capacity, units) + ", " +
                             margin_text(key.force_margin, "capacity", through)});
    lines.push_back({"ram stroke", length_text(key.stroke, units) + ", used " +
                                       length_text(key.travel, units) + ", " +
                                       margin_text(key.stroke_margin, "stroke", through)});
    lines.push_back(
        {"outer elongation",
         percent_text(key.outer_elongation) + " (log strain " +
             decimal_text(key.outer_strain, 3) + "), " +
             place_text(key.outer_strain_at, is_half(summary), units) +
             (key.width ? ", at mid-width" : "") +
             (summary.strain_remark.empty() ? "" : "; " + summary.strain_remark)});
    if (key.width)
      lines.push_back(
          {"largest elongation",
           percent_text(std::expm1(key.width->largest_strain)) + " (log strain " +
               decimal_text(key.width->largest_strain, 3) + "), " +
               place_text(key.width->largest_at, is_half(summary), units) + ", " +
               length_text(key.width->largest_across, units) + " from the mid-width"});
    lines.push_back(
        {"nominal elongation", percent_text(key.nominal_elongation) +
                                   ", thickness / (2 x nose radius + thickness)"});
    lines.push_back({"plastic strain",
                     decimal_text(key.plastic_strain, 3) + " at most, on the convex face"});
  }
  for (const ToolLoad &load : summary.tools)
    lines.push_back(
        {load.tool,
         load_text(load, summary.figures && summary.figures->width.has_value(), units)});
  for (const FlawFigures &flaw : summary.flaws)
    lines.push_back({flaw.name, opening_text(flaw, units)});
  if (summary.release)
  {
    const Release &free = *summary.release;
    if (!free.completed)
      lines.push_back({"springback", "unknown: the release did not come to rest"});
    else
    {
      lines.push_back(
          {"springback", is_half(summary)
                             ? angle_text(free.right_springback) + " on either side"
                             : angle_text(free.left_springback) + " left, " +
                                   angle_text(free.right_springback) + " right"});
      lines.push_back(
          {"ejection speed",
           "at most " + speed_text(free.speed_bound, units) + ", if all the " +
               energy_text(std::max(free.elastic_loaded - free.elastic_free, 0.), units) +
               " of released elastic energy became motion"});
    }
  }
  if (computed)
  {
    const KeyFigures &key = *summary.figures;
    lines.push_back(
        {"numerical errors",
         fmt::format("energy {} of the work by then, equilibrium {}, penetration {} of "
                     "thickness, {}",
                     error_text(key.energy_error), error_text(key.equilibrium_error),
                     error_text(key.penetration_share),
                     key.ripple > 0 ? "force ripple " + error_text(key.ripple)
                                    : "no force ripple seen")});
  }
  if (summary.effort && summary.figures)
    lines.push_back({"effort", fmt::format("{} unknowns, {} steps, {} iterations, {} s",
                                           summary.effort->dofs, summary.figures->steps,
                                           summary.figures->iterations,
                                           decimal_text(summary.effort->wall.total, 1))});
  return lines;
}

std::string aligned(const std::vector<FindingLine> &lines)
{
  std::size_t width = 0;
  for (const FindingLine &line : lines)
    width = std::max(width, line.first.size());
  std::string text;
  for (const auto &[name, value] : lines)
    text += "  " + name + std::string(width - name.size() + 2, ' ') + value + '\n';
  return text;
}
} // namespace

std::string verdict_lines(const RunSummary &summary, const UnitSystem units)
{
  if (!summary.finding)
    return "";
  std::string text = summary.finding->verdict.text(units) + '\n';
  if (summary.metal)
    text += "METAL, " + to_text(summary.metal->verdict) + ": " +
            summary.metal->account.text(units) + '\n';
  return text;
}

std::string finding_text(const RunSummary &summary, const std::filesystem::path &folder,
                         const UnitSystem units)
{
  std::string text;
  if (!summary.origin.title.empty())
    text += summary.origin.title + '\n';
  if (summary.finding)
  {
    text += verdict_lines(summary, units);
    const Finding &finding = *summary.finding;
    if (finding.accuracy.trust != Trust::sound)
      text += "ACCURACY, " + to_text(finding.accuracy.trust) + ": " +
              finding.accuracy.text(units) + ".\n";
    if (!finding.account.empty())
      text += finding.account.text(units) + '\n';
    else if (!finding.evidence.empty())
      text += finding.evidence + '\n';
  }
  else
    text += "NO FINDING: the run is " + to_text(summary.state) +
            (summary.failure.empty() ? "" : ": " + summary.failure) + ".\n";

  if (const std::string lines = aligned(figures(summary, units)); !lines.empty())
    text += '\n' + lines;
  if (const std::string lines = aligned(weld_lines(summary, units)); !lines.empty())
    text += "\nAt the end of the push (strains above are the largest of the whole pass)\n" +
            lines;
  if (!summary.flaws.empty())
    text += std::string("\n") + flaw_remark() + '\n';

  if (summary.bars)
    text += "\n" + error_bars_text(*summary.bars, units);

  if (!folder.empty())
  {
    std::vector<FindingLine> files = {
        {"run.json", "finding and key figures"},
        {"travel.csv", "forces, strains and energies, a row per step"},
        {"surface.csv", "both faces at the peak force and at the end"},
        {"fields/, tools/", "shapes and stresses (.pvd)"},
        {"case.ini", "the case as it was run"},
        {"log.txt", "how the computation went"}};
    if (summary.finding && summary.finding->beyond)
      files.insert(
          files.begin() + 2,
          {"beyond.csv", "the same beyond the ram's capacity, to find what it takes"});
    if (!summary.flaws.empty())
      files.insert(files.begin() + 2, {"opening.csv", "how far each flaw is open"});
    text += "\nFiles in " + folder.string() + '\n' + aligned(files);
  }
  return text + '\n' + caution_text();
}
} // namespace throughbend
