#include "postprocess/charts/svg_chart.h"

#include "inputs/text/csv_table.h"
#include "inputs/units/display_units.h"
#include "postprocess/charts/chart_labels.h"
#include "postprocess/html/html_text.h"
#include "postprocess/html/svg_tag.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace throughbend
{
namespace
{
// Colours by Okabe & Ito (2008), "Color Universal Design", in the order of their contrast
// with white; the dashes tell lines apart without colour.
constexpr std::array<const char *, 6> colours = {"#0072b2", "#b34a00", "#00694c",
                                                 "#1a2028", "#8f4a78", "#6b5b00"};
constexpr std::array<const char *, 6> dashes  = {"",         "7 3",     "2 3",
                                                 "10 3 2 3", "5 2 1 2", "1 2"};

constexpr double width = 500, plot_top = 32, plot_height = 236, key_row = 20;
constexpr double digit = 8; // width of one, at the chart's size of letters

/// As many digits as the step between ticks needs.
std::string tick_text(const double value, const double step)
{
  const int digits =
      std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-6)), 0, 6);
  return decimal_text(value, digits);
}

std::string text_at(const double x, const double y, const char *anchor,
                    const std::string &words, const std::string &more = "")
{
  return SvgTag("text").place(x, y).set("text-anchor", anchor).add(more).around(words);
}

std::string line_at(const double x1, const double y1, const double x2, const double y2,
                    const std::string &look)
{
  return SvgTag("line")
      .set("x1", x1)
      .set("y1", y1)
      .set("x2", x2)
      .set("y2", y2)
      .add(look)
      .alone();
}

/// Room for the longest tick beside an axis whose values count `factor` times.
double widest_tick(const Chart &chart, const double factor)
{
  const auto  values = ticks(chart.y.low * factor, chart.y.high * factor, 5);
  std::size_t most   = 4;
  for (const double y : values)
    most =
        std::max(most, tick_text(y, values.size() > 1 ? values[1] - values[0] : 1.).size());
  return digit * static_cast<double>(most);
}

class Drawing
{
public:
  explicit Drawing(const Chart &chart)
      : chart_(chart), top_(plot_top + (chart.x.other_title.empty() ? -20 : 16)),
        left_(std::max(70., 32 + widest_tick(chart, 1))),
        right_(width - (chart.y.other_title.empty()
                            ? 18
                            : 34 + widest_tick(chart, chart.y.other_factor))),
        bottom_(top_ + plot_height), labels_({left_ + 2, top_ + 2, right_ - 2, bottom_ - 2})
  {
    for (const ChartLine &line : chart.lines)
      for (std::size_t i = 1; i < line.points.size(); ++i)
        avoid(line.points[i - 1], line.points[i]);
    for (const ChartMark &mark : chart.marks)
      if (std::isfinite(mark.x) && std::isfinite(mark.y))
        labels_.avoid_line(
            {px(mark.x) - 7, py(mark.y) - 7, px(mark.x) + 7, py(mark.y) + 7});
    for (const ChartLimit &limit : chart.limits)
      if (limit.of == LimitOf::y && shown(chart.y, limit.value))
        labels_.avoid_line({left_, py(limit.value) - 1, right_, py(limit.value) + 1});
      else if (limit.of == LimitOf::x && shown(chart.x, limit.value))
        labels_.avoid_line({px(limit.value) - 1, top_, px(limit.value) + 1, bottom_});
  }

  std::string text()
  {
    const double height = key_top() + key_row * key_rows() - 8;
    std::string  svg    = "<svg class=\"chart\" role=\"img\" "
                          "xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " +
                      svg_number(width) + " " + svg_number(height) +
                      "\" font-size=\"14\" fill=\"#1a2028\"";
    if (chart_.follow == Follow::slider)
      svg += " data-left=\"" + svg_number(left_) + "\" data-right=\"" + svg_number(right_) +
             "\" data-top=\"" + svg_number(top_) + "\" data-bottom=\"" +
             svg_number(bottom_) + "\" data-x-low=\"" + number_text(chart_.x.low) +
             "\" data-x-high=\"" + number_text(chart_.x.high) + "\" data-y-low=\"" +
             number_text(chart_.y.low) + "\" data-y-high=\"" + number_text(chart_.y.high) +
             "\"";
    svg += ">\n<title>" + escaped(chart_.title) + "</title>\n";
    svg += bands() + stretches() + axes() + limit_lines() + lines() + limit_labels();
    svg += marks();
    if (chart_.follow == Follow::slider)
      svg += SvgTag("circle")
                 .add("class=\"now\" visibility=\"hidden\"")
                 .centre(left_, bottom_)
                 .add("r=\"6\" fill=\"#d55e00\" stroke=\"#ffffff\" stroke-width=\"2\"")
                 .alone();
    return svg + key() + "</svg>\n";
  }

private:
  double px(const double x) const
  {
    return left_ + (x - chart_.x.low) / (chart_.x.high - chart_.x.low) * (right_ - left_);
  }
  double py(const double y) const
  {
    return bottom_ - (y - chart_.y.low) / (chart_.y.high - chart_.y.low) * plot_height;
  }
  /// Points along a stretch of a curve, a few units apart.
  void avoid(const std::pair<double, double> &from, const std::pair<double, double> &to)
  {
    const double x1 = px(from.first), y1 = py(from.second), x2 = px(to.first),
                 y2     = py(to.second);
    const double length = std::hypot(x2 - x1, y2 - y1);
    if (!std::isfinite(length))
      return;
    constexpr double apart = 4;
    const int        n     = std::clamp(static_cast<int>(length / apart), 1, 200);
    for (int i = 0; i <= n; ++i)
      labels_.avoid_point(x1 + (x2 - x1) * i / n, y1 + (y2 - y1) * i / n);
  }

  bool shown(const ChartAxis &axis, const double value) const
  {
    const double slack = 1e-9 * (axis.high - axis.low);
    return value >= axis.low - slack && value <= axis.high + slack;
  }

  std::string bands() const
  {
    std::string svg;
    for (const ChartBand &band : chart_.bands)
    {
      const double from = px(std::clamp(band.from, chart_.x.low, chart_.x.high));
      const double to   = px(std::clamp(band.to, chart_.x.low, chart_.x.high));
      if (to <= from)
        continue;
      const bool is_weld = band.label == "weld";
      svg += SvgTag("rect")
                 .place(from, top_)
                 .size(to - from, plot_height)
                 .set("fill", is_weld ? "#d8dce2" : "#eceef1")
                 .alone() +
             label_of(band, from, to);
    }
    return svg;
  }

  /// Bands may be narrower than their names: those at the sides are named outside.
  std::string label_of(const ChartBand &band, const double from, const double to) const
  {
    const bool first = &band == &chart_.bands.front(), last = &band == &chart_.bands.back();
    const bool side = chart_.bands.size() > 1 && (first || last);
    return text_at(!side   ? (from + to) / 2
                   : first ? from - 4
                           : to + 4,
                   bottom_ - 7,
                   !side   ? "middle"
                   : first ? "end"
                           : "start",
                   band.label, " font-size=\"12\"");
  }

  std::string axes() const
  {
    const char *const grid  = "stroke=\"#dfe3e8\"";
    const char *const frame = "stroke=\"#6b727c\"";
    std::string       svg, labels;
    const auto        x_ticks = ticks(chart_.x.low, chart_.x.high, 6);
    const auto        y_ticks = ticks(chart_.y.low, chart_.y.high, 5);
    const auto        step    = [](const std::vector<double> &t)
    { return t.size() > 1 ? t[1] - t[0] : 1; };
    for (const double x : x_ticks)
    {
      svg += line_at(px(x), top_, px(x), bottom_, grid);
      labels += text_at(px(x), bottom_ + 18, "middle", tick_text(x, step(x_ticks)));
    }
    for (const double y : y_ticks)
    {
      svg += line_at(left_, py(y), right_, py(y), grid);
      labels += text_at(left_ - 7, py(y) + 5, "end", tick_text(y, step(y_ticks)));
    }
    if (!chart_.x.other_title.empty())
    {
      const double factor = chart_.x.other_factor;
      const auto   others = ticks(chart_.x.low * factor, chart_.x.high * factor, 6);
      for (const double x : others)
      {
        svg += line_at(px(x / factor), top_ - 5, px(x / factor), top_, frame);
        labels += text_at(px(x / factor), top_ - 9, "middle", tick_text(x, step(others)));
      }
      labels += text_at((left_ + right_) / 2, top_ - 30, "middle", chart_.x.other_title);
    }
    if (!chart_.y.other_title.empty())
    {
      const double factor = chart_.y.other_factor;
      const auto   others = ticks(chart_.y.low * factor, chart_.y.high * factor, 5);
      for (const double y : others)
      {
        svg += line_at(right_, py(y / factor), right_ + 5, py(y / factor), frame);
        labels +=
            text_at(right_ + 8, py(y / factor) + 5, "start", tick_text(y, step(others)));
      }
      labels += turned(width - 6, chart_.y.other_title);
    }
    labels += turned(15, chart_.y.title);
    labels += text_at((left_ + right_) / 2, bottom_ + 38, "middle", chart_.x.title);
    svg += SvgTag("rect")
               .place(left_, top_)
               .size(right_ - left_, plot_height)
               .set("fill", "none")
               .add(frame)
               .alone();
    if (chart_.y.low < 0 && chart_.y.high > 0)
      svg += line_at(left_, py(0), right_, py(0), frame);
    return svg + labels;
  }

  std::string turned(const double x, const std::string &words) const
  {
    const double y = (top_ + bottom_) / 2;
    return text_at(x, y, "middle", words,
                   " transform=\"rotate(-90 " + svg_number(x) + " " + svg_number(y) +
                       ")\"");
  }

  /// Over the whole height, with a bar and its name in a row below the axis.
  std::string stretches() const
  {
    std::string svg;
    double      y = bottom_ + 58;
    for (const ChartBand &stretch : chart_.stretches)
    {
      const double from = px(std::clamp(stretch.from, chart_.x.low, chart_.x.high));
      const double to   = px(std::clamp(stretch.to, chart_.x.low, chart_.x.high));
      const double wide = std::max(to - from, 2.);
      svg +=
          SvgTag("rect")
              .set("class", "stretch")
              .place(from, top_)
              .size(wide, plot_height)
              .add("fill=\"#e69f00\" fill-opacity=\"0.22\"")
              .alone() +
          line_at(from, y - 4, from + wide, y - 4, "stroke=\"#8a5a00\" stroke-width=\"6\"");
      const bool fits =
          ChartLabels::box(stretch.label, 13, {from + wide + 6, y, "start"}).right < width;
      svg += fits ? text_at(from + wide + 6, y, "start", stretch.label, " font-size=\"13\"")
                  : text_at(from - 6, y, "end", stretch.label, " font-size=\"13\"");
      y += key_row;
    }
    return svg;
  }

  std::string limit_lines() const
  {
    const char *const look =
        "stroke=\"#a3220f\" stroke-width=\"1.6\" stroke-dasharray=\"8 4\"";
    std::string svg;
    for (const ChartLimit &limit : chart_.limits)
      if (limit.of == LimitOf::y && shown(chart_.y, limit.value))
        svg += line_at(left_, py(limit.value), right_, py(limit.value), look);
      else if (limit.of == LimitOf::x && shown(chart_.x, limit.value))
        svg += line_at(px(limit.value), top_, px(limit.value), bottom_, look);
    return svg;
  }

  std::string limit_labels()
  {
    std::string svg;
    for (const ChartLimit &limit : chart_.limits)
    {
      std::string             words = limit.label;
      std::vector<LabelPlace> places;
      if (limit.of == LimitOf::y && shown(chart_.y, limit.value))
      {
        const double y = py(limit.value);
        for (const double at : {y - 6, y + 16})
          for (double x = left_ + 8; x < right_ - 60; x += 25)
            places.push_back({x, at, "start"});
      }
      else if (limit.of == LimitOf::y && limit.value > chart_.y.high)
      {
        words  = "\u2191 " + limit.label + ", above this chart";
        places = {{left_ + 8, top_ + 17, "start"}, {right_ - 8, top_ + 17, "end"}};
      }
      else if (limit.of == LimitOf::x && shown(chart_.x, limit.value))
        for (const double at : {top_ + 38, top_ + 58, top_ + 18, top_ + 98, top_ + 138})
          places.push_back({px(limit.value) - 6, at, "end"});
      if (!places.empty())
        svg += label(words, places, " fill=\"#a3220f\"");
    }
    return svg;
  }

  /// A white rim keeps the words readable where they cross a line.
  std::string label(const std::string &words, const std::vector<LabelPlace> &places,
                    const std::string &more)
  {
    const LabelPlace at = labels_.put(words, 13, places);
    return text_at(at.x, at.y, at.anchor, words,
                   " font-size=\"13\" stroke=\"#ffffff\" stroke-width=\"3\" "
                   "paint-order=\"stroke\"" +
                       more);
  }

  std::string lines() const
  {
    std::string svg;
    for (std::size_t i = 0; i < chart_.lines.size(); ++i)
    {
      std::string path;
      bool        down = false;
      for (const auto &[x, y] : chart_.lines[i].points)
      {
        if (!std::isfinite(x) || !std::isfinite(y) || !shown(chart_.x, x))
        {
          down = false;
          continue;
        }
        if (chart_.lines[i].look == LineLook::points)
        {
          svg += point_at(px(x), py(std::clamp(y, chart_.y.low, chart_.y.high)), i);
          continue;
        }
        path += std::string(down ? "L" : "M") + svg_number(px(x)) + " " +
                svg_number(py(std::clamp(y, chart_.y.low, chart_.y.high)));
        down = true;
      }
      if (!path.empty())
        svg += SvgTag("path").set("d", path).set("fill", "none").add(look_of(i)).alone();
    }
    return svg;
  }

  std::string point_at(const double x, const double y, const std::size_t i) const
  {
    return SvgTag("circle")
        .centre(x, y)
        .add("r=\"3\" fill=\"none\"")
        .set("stroke", colours[i % colours.size()])
        .set("stroke-width", 1.5)
        .alone();
  }

  std::string look_of(const std::size_t i) const
  {
    const bool        continued = chart_.lines[i].look == LineLook::continued;
    const std::string dash      = continued ? "4 4" : dashes[i % dashes.size()];
    return std::string("stroke=\"") +
           (continued ? colours[0] : colours[i % colours.size()]) +
           "\" stroke-width=\"2\"" +
           (dash.empty() ? "" : " stroke-dasharray=\"" + dash + "\"");
  }

  std::string marks()
  {
    std::string svg;
    for (const ChartMark &mark : chart_.marks)
    {
      if (!std::isfinite(mark.x) || !std::isfinite(mark.y))
        continue;
      const double x = px(mark.x), y = py(std::min(mark.y, chart_.y.high));
      svg += SvgTag("circle")
                 .centre(x, y)
                 .add("r=\"4.5\" fill=\"#ffffff\" stroke=\"#1a2028\" stroke-width=\"2\"")
                 .alone();
      std::vector<LabelPlace> places;
      for (const double at : {y - 11, y + 22, y - 29, y + 40, y - 47, y + 58})
        for (const LabelPlace &place :
             {LabelPlace{x, at, "middle"}, LabelPlace{x + 6, at, "end"},
              LabelPlace{x - 6, at, "start"}, LabelPlace{x + 12, at, "start"},
              LabelPlace{x - 12, at, "end"}})
          places.push_back(place);
      svg += label(mark.label, places, "");
    }
    return svg;
  }

  /// Base line of the first row of the key.
  double key_top() const
  {
    return bottom_ + 58 + key_row * static_cast<double>(chart_.stretches.size());
  }

  /// Lines with a label, two to a row.
  int key_rows() const
  {
    int named = 0;
    for (const ChartLine &line : chart_.lines)
      named += line.label.empty() ? 0 : 1;
    return long_labels() ? named : (named + 1) / 2;
  }
  bool long_labels() const
  {
    return std::any_of(chart_.lines.begin(), chart_.lines.end(),
                       [](const ChartLine &line) { return line.label.size() > 24; });
  }

  std::string key() const
  {
    std::string svg;
    int         place = 0;
    for (std::size_t i = 0; i < chart_.lines.size(); ++i)
    {
      if (chart_.lines[i].label.empty())
        continue;
      const int    row = long_labels() ? place : place / 2;
      const double x   = left_ + (long_labels() ? 0 : (place % 2) * (right_ - left_) / 2);
      const double y   = key_top() + key_row * row;
      svg += (chart_.lines[i].look == LineLook::points
                  ? point_at(x + 15, y - 5, i)
                  : line_at(x, y - 5, x + 30, y - 5, look_of(i))) +
             text_at(x + 37, y, "start", chart_.lines[i].label, " font-size=\"13\"");
      ++place;
    }
    return svg;
  }

  const Chart &chart_;
  double       top_, left_, right_, bottom_;
  ChartLabels  labels_;
};
} // namespace

std::vector<double> ticks(const double low, const double high, const int wanted)
{
  if (!(high > low) || !std::isfinite(high - low))
    return {low};
  const double rough       = (high - low) / wanted,
               power       = std::pow(10, std::floor(std::log10(rough)));
  const double        step = power * (rough / power < 1.5   ? 1
                                      : rough / power < 3.5 ? 2
                                      : rough / power < 7.5 ? 5
                                                            : 10);
  std::vector<double> values;
  for (double k = std::ceil(low / step - 1e-9); k * step <= high + 1e-9 * step; ++k)
    values.push_back(k * step + 0.); // no -0
  return values;
}

void hold(ChartAxis &axis, const std::vector<double> &values)
{
  double low = 0, high = 0;
  for (const double value : values)
    if (std::isfinite(value))
    {
      low  = std::min(low, value);
      high = std::max(high, value);
    }
  if (!(high > low))
    high = low + 1;
  const double room = 0.06 * (high - low);
  axis.low          = low < 0 ? low - room : 0;
  axis.high         = high > 0 ? high + room : 0;
}

std::string svg_text(const Chart &chart)
{
  return Drawing(chart).text();
}
} // namespace throughbend
