#include "postprocess/study/spread_charts.h"

#include "postprocess/charts/chart_labels.h"
#include "postprocess/charts/svg_chart.h"
#include "postprocess/study/chart_frame.h"
#include "postprocess/study/finding_mark.h"
#include "postprocess/study/histogram.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
constexpr const char *bar_colour = "#8fb8dc", *other_colour = "#f0a44b";
constexpr double      nan = std::numeric_limits<double>::quiet_NaN();

struct ShownFigure
{
  double      factor;
  std::string title, unit;
};

ShownFigure shown_as(const std::string &figure, const ReaderUnits &units)
{
  if (figure == "peak_ram_force_N")
    return {units.force_scale().factor,
            "largest ram force [" + units.force_scale().unit + "]",
            units.force_scale().unit};
  if (figure == "peak_face_elongation")
    return {100, "largest stretch of the convex face [%]", "%"};
  return {1, figure_name(figure), ""};
}

/// As the spread itself counts: of a pass over the ram's capacity the force that it would
/// take, where it is known; a jam takes more than any. Stretch counts of coupons that went
/// through.
double counted(const StudyPass &pass, const std::string &figure)
{
  if (figure == "peak_ram_force_N")
    return pass.outcome == "jammed" ? std::numeric_limits<double>::infinity()
           : pass.outcome == "over-capacity"
               ? figure_of(pass, "finding.beyond_capacity.force_it_takes_N")
               : figure_of(pass, figure);
  return pass.outcome == "through" ? figure_of(pass, figure) : nan;
}

/// A quantile of the figure; that of the stretch is told by its logarithmic strain.
double quantile(const JsonMembers &answers, const std::string &figure,
                const std::string &share)
{
  return figure == "peak_face_elongation"
             ? std::expm1(answers.number("quantiles.peak_face_strain_log." + share))
             : answers.number("quantiles." + figure + "." + share);
}
} // namespace

SharedLimit shared_limit(const ReportedStudy &study, const std::string &figure)
{
  if (!study.own)
    return {nan, ""};
  const auto varies = [&](const std::string &key)
  { return find_key(study.record, key) != nullptr; };
  if (figure == "peak_ram_force_N")
    return {varies("ram.capacity") || !(study.own->ram.capacity > 0)
                ? nan
                : study.own->ram.capacity,
            "the ram's capacity"};
  // With a weld each zone has a limit of its own.
  if (figure != "peak_face_elongation" || study.own->weld.present() ||
      varies("material.elongation") || varies("material.limit_strain"))
    return {nan, ""};
  const Material &metal = study.own->material;
  if (metal.limit_strain > 0)
    return {std::expm1(metal.limit_strain), "the metal's limit strain"};
  if (metal.elongation > 0)
    return {metal.elongation, "the metal's stated elongation"};
  return {nan, ""};
}

Drawing histogram_chart(const ReportedStudy &study, const std::string &figure,
                        const ReaderUnits &units)
{
  const ShownFigure   as = shown_as(figure, units);
  std::vector<double> within, beyond, all;
  std::size_t         jammed = 0, unknown = 0;
  for (const StudyPass &pass : study.record.passes)
  {
    const double value = as.factor * counted(pass, figure);
    if (std::isfinite(value))
    {
      (pass.outcome == "over-capacity" ? beyond : within).push_back(value);
      all.push_back(value);
    }
    else
      ++(std::isinf(value) ? jammed : unknown);
  }
  Drawing    drawing(chart_width, 0, "How often: " + as.title);
  ChartFrame frame;
  frame.top                               = 34;
  frame.bottom                            = 262;
  const Bins                     bins     = bins_of(all);
  const std::vector<std::size_t> n_within = histogram(within, bins),
                                 n_beyond = histogram(beyond, bins);
  const SharedLimit   limit               = shared_limit(study, figure);
  const double        at                  = as.factor * limit.value;
  std::vector<double> ends                = {bins.low, bins.high()};
  // A limit far from all values would squeeze them into a corner: it is told in words.
  const bool near = std::isfinite(at) && at > bins.low - 0.6 * (bins.high() - bins.low) &&
                    at < bins.high() + 0.6 * (bins.high() - bins.low);
  if (near)
    ends.push_back(at);
  frame.x     = axis_for(as.title, ends, Floor::values);
  double most = 1;
  for (std::size_t i = 0; i < bins.count; ++i)
    most = std::max(most, static_cast<double>(n_within[i] + n_beyond[i]));
  frame.y = {"passes", 0, most * 1.06};
  draw_x_axis(drawing, frame);
  draw_y_axis(drawing, frame);
  for (std::size_t i = 0; i < bins.count; ++i)
  {
    const double left = frame.px(bins.border(i)), right = frame.px(bins.border(i + 1));
    const auto   bar = [&](const double from, const double to, const char *colour)
    {
      if (to > from)
        drawing.rectangle(left, frame.py(to), right - left, frame.py(from) - frame.py(to),
                          {colour, chart_ink, 1});
    };
    const auto a = static_cast<double>(n_within[i]), b = static_cast<double>(n_beyond[i]);
    bar(0, a, bar_colour);
    bar(a, a + b, other_colour);
  }
  draw_box(drawing, frame);
  for (const auto &[share, look] :
       {std::pair<std::string, std::vector<double>>{"0.05", {2, 3}},
        {"0.5", {}},
        {"0.95", {2, 3}}})
    if (const double q = as.factor * quantile(study.answers, figure, share);
        q > frame.x.low && q < frame.x.high)
      drawing.line(frame.px(q), frame.top, frame.px(q), frame.bottom,
                   {"", chart_ink, 2, look});
  if (near)
  {
    drawing.line(frame.px(at), frame.top - 6, frame.px(at), frame.bottom,
                 {"", limit_ink, 2.4, {8, 4}});
    const std::string words = limit.name + ", " + figure_text(figure, limit.value, units);
    const double      wide  = 0.6 * 15 * static_cast<double>(words.size());
    Lettering         how   = {15, "middle", limit_ink, true};
    how.rimmed              = true;
    drawing.text(std::clamp(frame.px(at), 4 + wide / 2,
                            std::max(chart_width - 4 - wide / 2, 4 + wide / 2)),
                 frame.top - 12, words, how);
  }

  double     y   = frame.bottom + 68;
  const auto row = [&](const std::string &words)
  {
    for (const std::string &line : lines_of(words, 54))
    {
      drawing.text(58, y, line, {16});
      y += 23;
    }
  };
  const auto swatch = [&](const char *colour) {
    drawing.rectangle(16, y - 15, 32, 18, {colour, chart_ink, 1});
  };
  if (!within.empty())
  {
    swatch(bar_colour);
    row(figure == "peak_ram_force_N"
            ? "what the pass took: " + std::to_string(within.size())
            : "passes that went through: " + std::to_string(within.size()));
  }
  if (!beyond.empty())
  {
    swatch(other_colour);
    row("over the ram's capacity, what it would take: " + std::to_string(beyond.size()));
  }
  if (std::isfinite(quantile(study.answers, figure, "0.5")))
  {
    drawing.line(32, y - 16, 32, y + 2, {"", chart_ink, 2});
    row("median; dotted: 5 % and 95 % lie below");
  }
  if (jammed > 0)
    row("not drawn, jammed, more than any force: " + std::to_string(jammed));
  if (unknown > 0)
    row((figure == "peak_ram_force_N" ? "not drawn, not known: "
                                      : "not drawn, not through or not known: ") +
        std::to_string(unknown));
  if (std::isfinite(at) && !near)
    row("not in sight: " + limit.name + ", " + figure_text(figure, limit.value, units));
  drawing.grow(y - 6);
  return drawing;
}

std::vector<std::string> figures_in(const JsonMembers &answers, const std::string &group)
{
  std::vector<std::string> figures;
  for (const std::string &path : answers.names_in(group))
  {
    // "peak_ram_force_N", "peak_ram_force_N.0.5", ...: those that hold something
    const bool inside = std::any_of(figures.begin(), figures.end(),
                                    [&](const std::string &figure)
                                    { return path.rfind(figure + ".", 0) == 0; });
    if (!inside)
      figures.push_back(path);
  }
  return figures;
}

Drawing weights_chart(const ReportedStudy &study, const std::string &figure)
{
  const JsonMembers &answers = study.answers;
  Drawing    drawing(chart_width, 0, "Which key matters for the " + figure_name(figure));
  ChartFrame frame;
  frame.left             = 16;
  frame.right            = chart_width - 24;
  frame.top              = 8;
  const std::string list = "weights." + figure + ".";
  std::size_t       n    = 0;
  double            most = 1;
  for (; answers.has(list + std::to_string(n)); ++n)
    for (const std::string which : {".first", ".total"})
      if (const double end = answers.number(list + std::to_string(n) + which) +
                             answers.number(list + std::to_string(n) + which + "_error");
          std::isfinite(end))
        most = std::max(most, end);
  constexpr double high = 74;
  frame.bottom          = frame.top + high * static_cast<double>(n);
  frame.x               = {"share of the variance of the " + figure_name(figure), 0, most};
  draw_x_axis(drawing, frame);
  for (std::size_t i = 0; i < n; ++i)
  {
    const std::string here = list + std::to_string(i);
    const double      top  = frame.top + high * static_cast<double>(i);
    drawing.text(frame.left + 6, top + 18, key_name(answers.word(here + ".key")),
                 {16, "start", chart_ink, true});
    double y = top + 26;
    for (const auto &[which, colour] :
         {std::pair<std::string, const char *>{".first", bar_colour},
          {".total", "#cf96bd"}})
    {
      const double value = answers.number(here + which),
                   error = answers.number(here + which + "_error");
      if (std::isfinite(value))
      {
        const double end = std::clamp(value, 0., most);
        drawing.rectangle(frame.left, y, std::max(frame.px(end) - frame.left, 1.), 17,
                          {colour, chart_ink, 1});
        if (std::isfinite(error))
        {
          const double from = frame.px(std::clamp(value - error, 0., most)),
                       to   = frame.px(std::clamp(value + error, 0., most));
          drawing.line(from, y + 8.5, to, y + 8.5, {"", chart_ink, 2});
          for (const double x : {from, to})
            drawing.line(x, y + 3.5, x, y + 13.5, {"", chart_ink, 2});
        }
      }
      y += 20;
    }
  }
  draw_box(drawing, frame);
  double y = frame.bottom + 68;
  drawing.rectangle(16, y - 15, 32, 18, {bar_colour, chart_ink, 1});
  drawing.text(58, y, "by itself (first order)", {16});
  drawing.rectangle(250, y - 15, 32, 18, {"#cf96bd", chart_ink, 1});
  drawing.text(292, y, "with others (total)", {16});
  y += 23;
  drawing.line(16, y - 5, 48, y - 5, {"", chart_ink, 2});
  drawing.text(58, y, "its own error", {16});
  drawing.grow(y + 12);
  return drawing;
}
} // namespace throughbend
