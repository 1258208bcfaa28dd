#include "postprocess/report/report_tables.h"

#include "inputs/case/flaw.h"
#include "inputs/units/nominal_strain.h"
#include "postprocess/html/html_text.h"
#include "postprocess/runs/run_events.h"
#include "postprocess/runs/run_stretch.h"
#include "postprocess/words/margin_text.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace throughbend
{
namespace
{
/// Gathers figures, leaving out those that the run does not have.
class Figures
{
public:
  explicit Figures(const ReaderUnits &units) : units_(units) {}

  void add(const std::string &name, const double                       value,
           std::string (*text)(double, UnitSystem), const std::string &remark = "")
  {
    if (std::isfinite(value))
      list.push_back(
          {name, text(value, units_.first()), text(value, units_.second()), remark});
  }
  void add_same(const std::string &name, const double value, std::string (*text)(double),
                const std::string &remark = "")
  {
    if (std::isfinite(value))
      list.push_back({name, text(value), "the same", remark});
  }

  std::vector<ReportFigure> list;

private:
  const ReaderUnits &units_;
};

std::string strain_text(const double strain)
{
  return decimal_text(strain, 3);
}

/// Largest value of a column; NaN when it is not there.
double largest(const RunRecord &run, const std::string &head)
{
  const std::vector<double> values = run.column(head);
  return values.empty() ? std::nan("") : *std::max_element(values.begin(), values.end());
}

/// What push --bars found of a figure: of the computation, and of metal and grease. Empty
/// where the run has none.
std::string bars_text(const RunRecord &run, const std::string &figure,
                      const std::function<std::string(double)> &shown)
{
  const std::string at   = "error_bars." + figure + ".";
  const double      mesh = run.number(at + "numerics.up");
  if (!std::isfinite(mesh))
    return "";
  const auto whole = [&](const char *kind)
  {
    return run.truth(at + kind + ".whole") == std::optional(true)
               ? ""
               : " or more (not every pass of it has a finding)";
  };
  return "mesh, step and contact +-" + shown(mesh) + whole("numerics") +
         "; flow stress +-10 % and friction +-0.03 -" +
         shown(-run.number(at + "metal_and_friction.down")) + " +" +
         shown(run.number(at + "metal_and_friction.up")) + whole("metal_and_friction");
}

void add_ram(Figures &figures, const RunRecord &run, const ReaderUnits &units)
{
  const double peak = run.peak_force(), last = run.last_travel();
  const bool   through  = run.word("finding.outcome") == "through";
  const double capacity = run.known_case ? run.known_case->ram.capacity
                                         : run.number("key_figures.ram_capacity_N");
  const double stroke =
      run.known_case ? run.known_case->ram.stroke : run.number("key_figures.ram_stroke_mm");
  std::string at = std::isfinite(run.peak_force_travel())
                       ? "at " + units.length(run.peak_force_travel()) + " of travel; "
                       : "";
  if (const double band = run.number("key_figures.peak_ram_force_ripple_N"); band > 0)
    at += "of the smoothed curve; the computed force ripples about it by " +
          units.force(band) + "; ";
  figures.add("peak ram force", peak, force_text,
              at + margin_text((capacity - peak) / capacity, "capacity", through));
  figures.add("ram capacity", capacity, force_text);
  const auto beyond = run_beyond(run);
  if (beyond)
  {
    figures.add("force it takes", beyond->end == "through" ? beyond->force : std::nan(""),
                force_text,
                "of the ram, at " + units.length(beyond->force_at) +
                    " of travel, to push it through; found by continuing beyond the "
                    "ram's capacity" +
                    (!beyond->leg_ironed ? ""
                     : beyond->force_lack > 0
                         ? ". A leg is ironed on the way: with finer cells it may be " +
                               units.force(beyond->force * (1 + beyond->force_lack))
                         : ". A leg is ironed on the way: with finer cells it is larger"));
    figures.add("largest ram force followed",
                beyond->end == "through" ? std::nan("") : beyond->force, force_text,
                "beyond the ram's capacity; it did not push the coupon through");
    figures.add("then on one shoulder, at most", beyond->shoulder, force_text,
                "beyond the ram's capacity");
    if (beyond->frame > 0)
      figures.add("then on one frame plate, at most", beyond->frame, force_text,
                  "beyond the ram's capacity");
    figures.add_same("then largest elongation of the convex face",
                     std::expm1(beyond->outer_strain), percent_text,
                     "beyond the ram's capacity");
  }
  const std::string bars =
      bars_text(run, "force_N", [&](double force) { return units.force(force); });
  if (!bars.empty())
    figures.add("error bars of the force", beyond ? beyond->force : peak, force_text,
                bars + "; added up as if all went the same way");
  figures.add("travel", last, length_text,
              margin_text((stroke - last) / stroke, "stroke", through));
  figures.add("ram stroke", stroke, length_text);
}

/// "7.4 mm left of the coupon's centre", as a run prints it.
std::string place_text(const RunRecord &run, const double at, const ReaderUnits &units)
{
  constexpr double close = 0.05; // [mm], shown as 0.0
  if (std::abs(at) < close)
    return "at the coupon's centre";
  return units.length(std::abs(at)) + (run.right_half() ? " from the coupon's centre, on "
                                                          "both sides"
                                       : at < 0         ? " left of the coupon's centre"
                                                        : " right of the coupon's centre");
}

void add_strains(Figures &figures, const RunRecord &run, const ReaderUnits &units)
{
  const RunStretch face  = run_stretch(run);
  double           outer = face.middle;
  if (!std::isfinite(outer))
    outer = largest(run, "outer strain [-]");
  const double      at     = run.number("key_figures.peak_outer_strain_position_mm");
  const std::string remark = run.word("key_figures.peak_outer_strain_remark");
  if (face.wide)
    figures.add_same("largest elongation of the convex face", std::expm1(face.largest),
                     percent_text,
                     "log strain " + strain_text(face.largest) + ", " +
                         place_text(run, face.largest_at, units) + ", " +
                         units.length(face.from_middle) + " from the mid-width");
  figures.add_same(face.wide ? "the same at mid-width"
                             : "largest elongation of the convex face",
                   std::expm1(outer), percent_text,
                   "log strain " + strain_text(outer) +
                       (std::isfinite(at) ? ", " + place_text(run, at, units) : "") +
                       (remark.empty() ? "" : ", " + remark));
  double nominal = run.number("key_figures.nominal_elongation");
  if (!std::isfinite(nominal) && run.known_case)
    nominal = nominal_strain(run.known_case->fixture.plunger.bend_diameter(),
                             run.known_case->coupon.thickness);
  figures.add_same("nominal elongation", nominal, percent_text,
                   "thickness / (2 x nose radius + thickness), as rules state it");
  double plastic = run.number("key_figures.largest_plastic_strain");
  if (!std::isfinite(plastic))
    plastic = largest(run, "plastic strain [-]");
  figures.add_same("largest plastic strain", plastic, strain_text,
                   "on the convex face, at its surface");
}

/// What a zone of the weld has come to, at the end of the push.
std::string zone_remark(const RunRecord &run, const std::string &zone,
                        const ReaderUnits &units)
{
  const double at   = run.number(zone + "peak_position_mm");
  const double mean = run.number(zone + "mean_elongation");
  const double used = run.number(zone + "ductility_used");
  std::string  text =
      "at " + units.length(at) + " from the coupon's centre, right is positive";
  if (std::isfinite(mean))
    text += "; mean " + percent_text(mean);
  if (std::isfinite(used))
    text += "; " + percent_text(used) + " of its stated limit (" +
            run.word(zone + "limit_measure") + ")";
  if (run.known_case && run.known_case->mesh.dimension == 3)
    text += "; all at mid-width, METAL counts the edges, too";
  return text;
}

/// Only of a weld that crosses the coupon.
void add_weld(Figures &figures, const RunRecord &run, const ReaderUnits &units)
{
  if (!std::isfinite(run.number("convex_face.weld_centre_mm")))
    return;
  struct Zone
  {
    const char *member, *name;
  };
  const std::string end = "convex_face.at_end.";
  for (const Zone &zone : {Zone{"base", "the base plate"}, Zone{"left_haz", "the left HAZ"},
                           Zone{"weld", "the weld"}, Zone{"right_haz", "the right HAZ"}})
  {
    const std::string path = end + "zones." + zone.member + ".";
    figures.add_same(std::string("largest elongation of ") + zone.name + " at the end",
                     run.number(path + "peak_elongation"), percent_text,
                     zone_remark(run, path, units));
  }
  const double gauge = run.number("convex_face.gauge_length_mm");
  figures.add_same("mean elongation about the weld at the end",
                   run.number(end + "gauge_mean_elongation"), percent_text,
                   "over " + units.length(gauge) + " of the convex face");
  figures.add("weld and HAZ inside the bend at the end by",
              run.number(end + "weld_and_haz_margin_mm"), length_text,
              "below 0: they stick out by this much. The bend is where the face is "
              "stretched by at least half of the nominal elongation");
}

void add_flaws(Figures &figures, const RunRecord &run, const ReaderUnits &units)
{
  for (std::size_t i = 0; i < most_flaws; ++i)
  {
    const std::string name = flaw_section(i), here = "flaws." + name + ".";
    const double      opening = run.number(here + "largest_opening_mm");
    if (!std::isfinite(opening))
      continue;
    const double limit  = run.number(here + "opening_limit_mm"),
                 passed = run.number(here + "limit_passed_travel_mm");
    std::string remark =
        "at " + units.length(run.number(here + "largest_opening_travel_mm")) + " of travel";
    if (std::isfinite(passed))
      remark += "; past the limit of " + units.length(limit) + " from " +
                units.length(passed) + " on";
    figures.add("opening of " + name, opening, fine_length_text,
                remark + "; no crack grows in this model, so a lower bound");
  }
}

void add_fit(Figures &figures, const RunRecord &run, const ReaderUnits &units)
{
  // Across a coupon of real width the edge curls off the nose: a wire goes in at mid-width.
  const std::string width = "across_the_width.nose_gap_";
  const double      edge  = run.number(width + "edge_end_mm");
  const bool        wide  = std::isfinite(run.number(width + "mid_width_largest_mm"));
  double            gap =
      run.number(wide ? width + "mid_width_largest_mm" : "fit.nose_gap_largest_mm");
  if (!std::isfinite(gap))
    gap = largest(run, "nose gap [mm]");
  figures.add("largest gap under the nose", gap, fine_length_text,
              wide ? "at mid-width" : "");
  const double              wire = run.number("fit.wire_diameter_mm");
  const std::optional<bool> in   = run.truth("fit.wire_goes_in");
  figures.add("gap under the nose at the end",
              run.number(wide ? width + "mid_width_end_mm" : "fit.nose_gap_end_mm"),
              fine_length_text,
              std::isfinite(wire) && in ? "a wire of " + units.length(wire) +
                                              (*in ? " goes in" : " does not go in")
                                        : "");
  if (std::isfinite(edge))
    figures.add("the same at the free edge", edge, fine_length_text,
                "gap at the crown plus curl of the edge");
  const double walk = run.number("key_figures.largest_walk_mm");
  if (std::isfinite(walk) && walk != 0)
    figures.add("sideways walk of the middle", walk, fine_length_text, "right is positive");
}

/// Loads on shoulder and nose, as the run judged them.
void add_tools(Figures &figures, const RunRecord &run, const ReaderUnits &units)
{
  for (int i = 0;; ++i)
  {
    const std::string at   = "tool_loads." + std::to_string(i) + ".";
    const std::string tool = run.word(at + "tool");
    if (tool.empty())
      return;
    figures.add(
        "pressure on the " + tool + ", at most", run.number(at + "hertz_pressure_MPa"),
        stress_text,
        "by Hertz, for " +
            units.both(run.number(at + "largest_line_load_N_per_mm"), force_rise_text) +
            (run.known_case && run.known_case->mesh.dimension == 3
                 ? " of width at one place of it, at "
                 : " of width at ") +
            units.length(run.number(at + "travel_mm")) + " of travel");
    const double dent = run.number(at + "dent_mm");
    if (std::isfinite(dent))
      figures.add("dent in the " + tool + ", at most", dent, fine_length_text,
                  "yield " + units.both(run.number(at + "yield_MPa"), stress_text));
    else
      figures.list.push_back(
          {"dent in the " + tool, "not known", "not known", "its yield is not given"});
  }
}

/// A leg whose end is held back, as by a frame, bends on when it is let go.
std::string springback_text(const double degrees)
{
  return degrees < 0 ? ", bends on by " + angle_text(-degrees) + " when let go"
                     : ", springback " + angle_text(degrees);
}

void add_release(Figures &figures, const RunRecord &run)
{
  if (!run.truth("release.completed").value_or(false))
    return;
  // A coupon that drops is let go before it is a U.
  const std::string when =
      run.word("finding.outcome") == "dropped" ? " leg, as it drops" : " leg, loaded";
  // The finding tells the angles at which a lopsided coupon stands when it is out.
  const bool turns = std::abs(run.number("release.left_angle_loaded_deg") -
                              run.number("release.right_angle_loaded_deg")) > 0.3;
  for (const std::string side : {"left", "right"})
    figures.add_same(
        side + when, run.number("release." + side + "_angle_loaded_deg"), angle_text,
        "free " + angle_text(run.number("release." + side + "_angle_free_deg")) +
            springback_text(run.number("release." + side + "_springback_deg")) +
            (turns ? "; before an end left, and without the turn of the whole coupon then"
                   : ""));
  figures.add("released elastic energy", // what is not known stays so: NaN comes first
              std::max(run.number("release.elastic_energy_loaded_N_mm") -
                           run.number("release.elastic_energy_free_N_mm"),
                       0.),
              energy_text);
  figures.add("ejection speed, at most", run.number("release.ejection_speed_bound_m_per_s"),
              speed_text, "a bound: if all of that energy became motion");
}
} // namespace

std::vector<ReportFigure> report_figures(const RunRecord &run, const ReaderUnits &units)
{
  Figures figures(units);
  add_ram(figures, run, units);
  add_strains(figures, run, units);
  add_weld(figures, run, units);
  add_flaws(figures, run, units);
  add_fit(figures, run, units);
  add_tools(figures, run, units);
  add_release(figures, run);
  return figures.list;
}

std::string key_figures_html(const RunRecord &run, const ReaderUnits &units)
{
  std::vector<std::vector<std::string>> rows;
  for (const ReportFigure &figure : report_figures(run, units))
    rows.push_back({figure.name, figure.first, figure.second, figure.remark});
  const auto name = [](const UnitSystem system)
  { return system == UnitSystem::metric ? "metric" : "US"; };
  return rows.empty() ? paragraph("The run has left no figures.")
                      : table({"figure", name(units.first()), name(units.second()),
                               "margin, remark"},
                              rows);
}
} // namespace throughbend
