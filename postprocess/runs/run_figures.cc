#include "postprocess/runs/run_figures.h"

#include "inputs/case/flaw.h"
#include "inputs/case/zone_flow.h"
#include "inputs/keys/option_table.h"
#include "postprocess/runs/run_events.h"
#include "postprocess/runs/run_stretch.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
constexpr double not_known = std::numeric_limits<double>::quiet_NaN();

std::string same_percent(const double share, UnitSystem)
{
  return percent_text(share);
}
std::string same_strain(const double strain, UnitSystem)
{
  return decimal_text(strain, 3);
}
std::string same_angle(const double degrees, UnitSystem)
{
  return angle_text(degrees);
}

/// How far a figure may be from the same case on the fine mesh, with a step of 0.5 mm and
/// half the penetration: a share of it, or a length, angle, ... of its own, whichever is
/// more.
struct MeshBand
{
  double share = 0, least = 0;
};
struct LevelBands
{
  MeshBand quick, standard;
};

// Largest distances measured over the examples, rounded up: tests/verify/figure_bands.md;
// where another source shows more, it is named.
constexpr LevelBands force_band      = {{0.03, 0}, {0.02, 0}};
constexpr LevelBands ironed_band     = {{0.12, 0}, {0.06, 0}}; // ironing_series.md
constexpr LevelBands travel_band     = {{0, 0.6}, {0, 0.4}};
constexpr LevelBands peak_place_band = {{0, 4}, {0, 3}};
constexpr LevelBands strain_band     = {{0.05, 0.002}, {0.04, 0.002}};
constexpr LevelBands gauge_band      = {{0.08, 0.002}, {0.06, 0.002}};
// As the second answer takes them: solver/outcome/strain_error.
constexpr LevelBands weld_band       = {{0.3, 0.002}, {0.12, 0.002}};
constexpr LevelBands edge_band       = {{0.05, 0.002}, {0.05, 0.002}};
constexpr LevelBands plastic_band    = {{0.05, 0}, {0.04, 0}};
constexpr LevelBands gap_band        = {{0, 0.3}, {0, 0.25}};
constexpr LevelBands walk_band       = {{0, 0.6}, {0, 0.3}};
constexpr LevelBands angle_band      = {{0, 0.3}, {0, 0.2}};
constexpr LevelBands springback_band = {{0.09, 0}, {0.06, 0}};
constexpr LevelBands energy_band     = {{0.12, 0}, {0.06, 0}};
constexpr LevelBands speed_band      = {{0.06, 0}, {0.03, 0}};
// As the second answer takes it: opening_error in solver/outcome/flaw_figures.
constexpr LevelBands opening_band = {{0.08, 0.02}, {0.04, 0.02}};

/// What a setting is unless told.
double usual(const char *key)
{
  return read_quantity(find_option(key)->default_text, UnitKind::ratio).value;
}

/// Of a strain that stands in no bend but at a corner, and grows with every finer mesh.
std::string mesh_words(const std::string &remark)
{
  return "it is " + remark + ", where it depends on the mesh";
}

/// What is remarked of the largest strain, or of all strains of a weld; may be empty.
std::string strain_remark(const RunRecord &run, const std::string &of_largest)
{
  return of_largest.empty() && run.known_case && strength_jumps(*run.known_case)
             ? "beside a jump of strength"
             : of_largest;
}

/// Gathers figures, leaving out those that the run does not have.
class Figures
{
public:
  explicit Figures(const RunRecord &run) : run_(run), known_(why_no_band(run).empty())
  {
    const auto events = run_events(run);
    ironed_           = std::any_of(events.begin(), events.end(),
                                    [](const RunEvent &event) { return event.kind == "leg ironed"; });
  }

  void add(const std::string &name, const double                      value,
           std::string (*text)(double, UnitSystem), const LevelBands &bands)
  {
    if (std::isfinite(value))
      list.push_back({name, value, text, mesh_band(value, bands)});
  }

  /// What the case alone gives. It is another only by more than 1e-4 of it: sizes written
  /// in inch and mm differ in their last digits.
  void add_exact(const std::string &name, const double value,
                 std::string (*text)(double, UnitSystem))
  {
    if (std::isfinite(value))
    {
      constexpr double rounding = 1e-4; // of the value
      list.push_back(
          {name, value, text, {rounding * std::abs(value), "follows from the case"}});
    }
  }

  /// Of which nobody knows how far it is off, and why.
  void add_open(const std::string &name, const double                       value,
                std::string (*text)(double, UnitSystem), const std::string &why)
  {
    if (std::isfinite(value))
      list.push_back({name, value, text, {not_known, why}});
  }

  /// A force: also by what the record says of its own errors, and by error bars.
  void add_force(const std::string &name, const double value, const double ripple)
  {
    if (!std::isfinite(value))
      return;
    FigureBand band = mesh_band(value, ironed_ ? ironed_band : force_band);
    if (ironed_ && known_)
      band.source += ", a leg is ironed";
    take_bars(band, "force_N");
    for (const char *error : {"worst_energy_error", "worst_equilibrium_error"})
    {
      const double share = run_.number(std::string("numerical_quality.") + error);
      if (share * std::abs(value) > band.width)
        band = {share * std::abs(value), "its energy or equilibrium error"};
    }
    if (ripple > 0)
    {
      band.width += ripple;
      band.source += ", and ripple";
    }
    list.push_back({name, value, force_text, band});
  }

  /// A largest strain of the convex face, as elongation. Where it stands in no bend but at
  /// a corner, it grows with every finer mesh.
  void add_stretch(const std::string &name, const double log_strain,
                   const LevelBands &bands, const std::string &remark)
  {
    FigureBand band = mesh_band(log_strain, bands);
    if (!run_stretch(run_).wide) // else they are of the whole face
      take_bars(band, "outer_strain_log");
    put_stretch(name, log_strain,
                remark.empty() ? band : FigureBand{not_known, mesh_words(remark)});
  }

  /// The same anywhere on the face of a body: tests/verify/edge_series.md, where no weld
  /// crosses the edges.
  void add_whole_face(const std::string &name, const double log_strain, const bool welded)
  {
    FigureBand band =
        welded ? FigureBand{not_known, "edges beside a weld were in no mesh series"}
               : mesh_band(log_strain, edge_band);
    take_bars(band, "outer_strain_log");
    put_stretch(name, log_strain, band);
  }

  bool                        ironed() const { return ironed_; }
  std::vector<ComparedFigure> list;

private:
  /// As elongation; the band is of the logarithm.
  void put_stretch(const std::string &name, const double log_strain, FigureBand band)
  {
    if (!std::isfinite(log_strain))
      return;
    band.width *= std::exp(log_strain); // d(exp(e) - 1) = exp(e) de
    list.push_back({name, std::expm1(log_strain), same_percent, band});
  }

  FigureBand mesh_band(const double value, const LevelBands &bands) const
  {
    if (!known_)
      return {not_known, why_no_band(run_)};
    // A body of the standard level has a plane's quick cells
    // (meshes/coupon/coupon_grading).
    const bool quick = run_.known_case->mesh.level == MeshLevel::quick ||
                       run_.known_case->mesh.dimension == 3;
    const MeshBand &band = quick ? bands.quick : bands.standard;
    return {std::max(band.share * std::abs(value), band.least),
            quick ? "quick mesh" : "mesh and step"};
  }

  /// What push --bars found of this very run takes the place of what other runs showed.
  void take_bars(FigureBand &band, const std::string &figure) const
  {
    const std::string at = "error_bars." + figure + ".numerics.";
    const double      up = run_.number(at + "up"), down = -run_.number(at + "down");
    if (std::isfinite(up) && std::isfinite(down) &&
        run_.truth(at + "whole") == std::optional(true))
      band = {std::max(up, down), "its error bars"};
  }

  const RunRecord &run_;
  bool             known_, ironed_ = false;
};

void add_ram(Figures &figures, const RunRecord &run)
{
  const auto key = [&](const char *name)
  { return run.number(std::string("key_figures.") + name); };
  figures.add_force("peak ram force", key("peak_ram_force_N"),
                    key("peak_ram_force_ripple_N"));
  figures.add("travel of the peak ram force", key("peak_ram_force_travel_mm"), length_text,
              peak_place_band);
  if (const auto beyond = run_beyond(run))
  {
    const bool   through = beyond->end == "through";
    const double ripple  = run.number("finding.beyond_capacity.force_it_takes_ripple_N");
    figures.add_force(through ? "force it takes" : "largest ram force followed",
                      beyond->force, ripple);
    figures.add_force("then on one shoulder, at most", beyond->shoulder, ripple);
    if (beyond->frame > 0)
      figures.add_open("then on one frame plate, at most", beyond->frame, force_text,
                       "two meshes differed by a quarter");
  }
  figures.add("travel", key("largest_travel_mm"), length_text, travel_band);
}

void add_strains(Figures &figures, const RunRecord &run)
{
  const bool        welded = std::isfinite(run.number("convex_face.weld_centre_mm"));
  const std::string remark =
      strain_remark(run, run.word("key_figures.peak_outer_strain_remark"));
  const RunStretch face = run_stretch(run);
  if (face.wide)
    figures.add_whole_face("largest elongation of the convex face", face.largest, welded);
  figures.add_stretch(face.wide ? "the same at mid-width"
                                : "largest elongation of the convex face",
                      face.middle, welded ? weld_band : strain_band, remark);
  figures.add_exact("nominal elongation", run.number("key_figures.nominal_elongation"),
                    same_percent);
  const double plastic = run.number("key_figures.largest_plastic_strain");
  if (remark.empty())
    figures.add("largest plastic strain", plastic, same_strain,
                welded ? weld_band : plastic_band);
  else
    figures.add_open("largest plastic strain", plastic, same_strain, mesh_words(remark));
}

void add_weld(Figures &figures, const RunRecord &run)
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
    figures.add_stretch(std::string("largest elongation of ") + zone.name + " at the end",
                        run.number(end + "zones." + zone.member + ".peak_strain_log"),
                        weld_band, strain_remark(run, ""));
  figures.add("mean elongation about the weld at the end",
              run.number(end + "gauge_mean_elongation"), same_percent, gauge_band);
  figures.add("weld and HAZ inside the bend at the end by",
              run.number(end + "weld_and_haz_margin_mm"), length_text, peak_place_band);
}

void add_flaws(Figures &figures, const RunRecord &run)
{
  for (std::size_t i = 0; i < most_flaws; ++i)
  {
    const std::string name = flaw_section(i);
    figures.add("opening of " + name, run.number("flaws." + name + ".largest_opening_mm"),
                fine_length_text, opening_band);
  }
}

void add_fit(Figures &figures, const RunRecord &run)
{
  const std::string width = "across_the_width.nose_gap_mid_width_";
  const bool        wide  = std::isfinite(run.number(width + "largest_mm"));
  figures.add("largest gap under the nose",
              run.number(wide ? width + "largest_mm" : "fit.nose_gap_largest_mm"),
              fine_length_text, gap_band);
  figures.add("gap under the nose at the end",
              run.number(wide ? width + "end_mm" : "fit.nose_gap_end_mm"), fine_length_text,
              gap_band);
  figures.add("sideways walk of the middle", run.number("key_figures.largest_walk_mm"),
              fine_length_text, walk_band);
}

void add_tools(Figures &figures, const RunRecord &run)
{
  for (int i = 0;; ++i)
  {
    const std::string at   = "tool_loads." + std::to_string(i) + ".";
    const std::string tool = run.word(at + "tool");
    if (tool.empty())
      return;
    // Which shoulder bears more in a symmetric pass is a matter of rounding.
    const bool shoulder = tool.find("shoulder") != std::string::npos;
    figures.add(shoulder ? "pressure on the shoulder that bears most"
                         : "pressure on the " + tool + ", at most",
                run.number(at + "hertz_pressure_MPa"), stress_text,
                figures.ironed() ? ironed_band : force_band);
  }
}

void add_release(Figures &figures, const RunRecord &run)
{
  if (!run.truth("release.completed").value_or(false))
    return;
  for (const std::string side : {"left", "right"})
  {
    const auto of = [&](const char *member)
    { return run.number("release." + side + member); };
    figures.add(side + " leg, loaded", of("_angle_loaded_deg"), same_angle, angle_band);
    figures.add(side + " leg, free", of("_angle_free_deg"), same_angle, angle_band);
    figures.add("springback of the " + side + " leg", of("_springback_deg"), same_angle,
                springback_band);
  }
  figures.add("released elastic energy",
              run.number("release.elastic_energy_loaded_N_mm") -
                  run.number("release.elastic_energy_free_N_mm"),
              energy_text, energy_band);
  figures.add("ejection speed, at most", run.number("release.ejection_speed_bound_m_per_s"),
              speed_text, speed_band);
}
} // namespace

std::string why_no_band(const RunRecord &run)
{
  if (!run.known_case)
    return "its case is not known";
  const Case           &c  = *run.known_case;
  const SolverSettings &is = c.solver;
  const double usual_step  = (c.fixture.plunger.nose_radius + c.coupon.thickness) / 20;
  if (c.mesh.layers > 0)
    return fmt::format("mesh.layers is {}", c.mesh.layers);
  if (c.mesh.cell_size > 0)
    return fmt::format("mesh.cell_size is {}",
                       length_text(c.mesh.cell_size, UnitSystem::metric));
  if (is.largest_step > usual_step)
    return "solver.largest_step is longer than usual";
  if (is.residual_tolerance > usual("solver.residual_tolerance"))
    return "solver.residual_tolerance is wider than usual";
  if (is.penetration_tolerance > usual("solver.penetration_tolerance"))
    return "solver.penetration_tolerance is wider than usual";
  if (is.regularisation > usual("solver.regularisation"))
    return "solver.regularisation is more than usual";
  return "";
}

std::vector<ComparedFigure> compared_figures(const RunRecord &run)
{
  Figures figures(run);
  add_ram(figures, run);
  add_strains(figures, run);
  add_weld(figures, run);
  add_flaws(figures, run);
  add_fit(figures, run);
  add_tools(figures, run);
  add_release(figures, run);
  return figures.list;
}
} // namespace throughbend
