#include "postprocess/report/index_figures.h"

#include "inputs/case/flaw.h"
#include "postprocess/runs/run_events.h"
#include "postprocess/runs/run_stretch.h"

#include <cmath>

namespace throughbend
{
namespace
{
IndexFigure peak_force(const RunRecord &run, const ReaderUnits &units)
{
  IndexFigure  figure{"peak ram force", "-", ""};
  const double peak = run.peak_force();
  if (!std::isfinite(peak))
    return figure;
  figure.brief          = force_text(peak, units.first());
  figure.full           = units.force(peak);
  const double capacity = run.known_case ? run.known_case->ram.capacity : std::nan("");
  if (!std::isfinite(capacity))
    return figure;
  if (const auto beyond = run_beyond(run); beyond && beyond->end == "through")
  {
    figure.full += ", all that the ram has; it takes " + units.force(beyond->force);
    return figure;
  }
  const double      spare  = (capacity - peak) / capacity;
  const std::string of_ram = " of the ram's " + force_text(capacity, units.first());
  figure.full += spare < 0.0005 ? ", all that the ram has"
                 : run.word("finding.outcome") == "through"
                     ? ", leaves " + percent_text(spare) + of_ram
                     : ", " + percent_text(spare) + of_ram + " not used";
  return figure;
}

/// "1.6 mm from the centre", "12.0 mm left of the centre"
std::string place(const RunRecord &run, const ReaderUnits &units)
{
  const double at = run_stretch(run).largest_at;
  if (!std::isfinite(at))
    return "";
  if (std::abs(at) < 0.05) // [mm], shown as 0.0
    return ", at the centre";
  const std::string side = run.right_half() ? " on either side"
                           : at < 0         ? " left"
                                            : " right";
  return ", " + length_text(std::abs(at), units.first()) + side + " of the centre";
}

IndexFigure stretch(const RunRecord &run, const ReaderUnits &units)
{
  IndexFigure      figure{"stretch of the convex face", "-", ""};
  const RunStretch face = run_stretch(run);
  if (!std::isfinite(face.largest))
    return figure;
  figure.brief = percent_text(std::expm1(face.largest));
  figure.full  = figure.brief + place(run, units);
  if (face.wide)
    figure.full += ", " + length_text(face.from_middle, units.first()) +
                   " from the mid-width; " + percent_text(std::expm1(face.middle)) +
                   " at mid-width";
  const double nominal = run.number("key_figures.nominal_elongation");
  if (const std::string remark = run.word("key_figures.peak_outer_strain_remark");
      !remark.empty())
    figure.full += ", " + remark;
  if (std::isfinite(nominal))
    figure.full += "; by the formula " + percent_text(nominal);
  return figure;
}

IndexFigure springback(const RunRecord &run)
{
  IndexFigure  figure{"springback", "-", ""};
  const double left  = run.number("release.left_springback_deg"),
               right = run.number("release.right_springback_deg");
  // An end that is held back bends on when it is let go: no springback of the bend; nor is
  // that of a coupon that drops before it is a U.
  if (run.word("finding.outcome") == "dropped" ||
      !run.truth("release.completed").value_or(false) || !(left >= 0) || !(right >= 0))
    return figure;
  if (angle_text(left) == angle_text(right))
  {
    figure.brief = angle_text(right);
    figure.full  = angle_text(right) + " on either side";
    return figure;
  }
  figure.brief = angle_text(left) + " left, " + angle_text(right) + " right";
  figure.full  = figure.brief;
  return figure;
}

IndexFigure walk(const RunRecord &run, const ReaderUnits &units)
{
  IndexFigure  figure{"walk of the middle", "-", ""};
  const double way = run.number("key_figures.largest_walk_mm");
  if (!std::isfinite(way) || run.right_half() || std::abs(way) < 0.005)
    return figure;
  const std::string side = way < 0 ? " to the left" : " to the right";
  figure.brief           = fine_length_text(std::abs(way), units.first()) + side;
  figure.full            = fine_length_text(std::abs(way), units.first()) + " (" +
                fine_length_text(std::abs(way), units.second()) + ")" + side;
  return figure;
}
} // namespace

std::vector<IndexFigure> index_figures(const RunRecord &run, const ReaderUnits &units)
{
  return {peak_force(run, units), stretch(run, units), walk(run, units), springback(run)};
}

std::optional<IndexFigure> flaw_opening(const RunRecord &run, const ReaderUnits &units)
{
  double largest = std::nan(""), limit = std::nan("");
  for (std::size_t i = 0; i < most_flaws; ++i)
  {
    const std::string here    = "flaws." + flaw_section(i) + ".";
    const double      opening = run.number(here + "largest_opening_mm");
    if (!std::isfinite(opening) || opening <= largest)
      continue;
    largest = opening;
    limit   = run.number(here + "opening_limit_mm");
  }
  if (!std::isfinite(largest))
    return std::nullopt;
  IndexFigure figure{"opening of the flaw", fine_length_text(largest, units.first()), ""};
  figure.full = figure.brief + " (" + fine_length_text(largest, units.second()) + ")";
  if (std::isfinite(limit))
    figure.full += std::string(largest > limit ? ", past" : ", within") +
                   " the stated limit of " + length_text(limit, units.first());
  figure.full += "; no crack grows in the model, a real one opens further";
  return figure;
}
} // namespace throughbend
