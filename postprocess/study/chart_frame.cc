#include "postprocess/study/chart_frame.h"

#include "inputs/units/display_units.h"
#include "postprocess/charts/svg_chart.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <sstream>

namespace throughbend
{
namespace
{
constexpr double letters = 16, letter_width = 0.56;
const Look       grid = {"", chart_grid}, tick = {"", chart_rim};

double width_of(const std::string &words)
{
  return letter_width * letters * static_cast<double>(words.size());
}

double step_of(const std::vector<double> &values)
{
  return values.size() > 1 ? values[1] - values[0] : 1;
}

/// Every n-th of the labels so that neighbours keep apart; n is the same for all.
std::size_t stride(const std::vector<double> &places, const std::vector<double> &sizes)
{
  for (std::size_t n = 1; n < places.size(); ++n)
  {
    bool apart = true;
    for (std::size_t i = n; i < places.size(); i += n)
      apart =
          apart && std::abs(places[i] - places[i - n]) >= (sizes[i] + sizes[i - n]) / 2 + 6;
    if (apart)
      return n;
  }
  return std::max<std::size_t>(1, places.size());
}

void x_title(Drawing &drawing, const ChartFrame &frame)
{
  drawing.text((frame.left + frame.right) / 2, frame.bottom + 42, frame.x.title,
               {letters, "middle"});
}

void y_title(Drawing &drawing, const ChartFrame &frame)
{
  Lettering turned = {letters, "middle"};
  turned.turn      = Turn::upwards;
  drawing.text(18, (frame.top + frame.bottom) / 2, frame.y.title, turned);
}
} // namespace

void draw_x_axis(Drawing &drawing, const ChartFrame &frame)
{
  const std::vector<double> values = ticks(frame.x.low, frame.x.high, 6);
  for (const double value : values)
  {
    drawing.line(frame.px(value), frame.top, frame.px(value), frame.bottom, grid);
    drawing.text(frame.px(value), frame.bottom + 20, step_text(value, step_of(values)),
                 {letters, "middle"});
  }
  x_title(drawing, frame);
}

void draw_y_axis(Drawing &drawing, const ChartFrame &frame)
{
  const std::vector<double> values =
      ticks(frame.y.low, frame.y.high, frame.bottom - frame.top < 200 ? 4 : 5);
  for (const double value : values)
  {
    drawing.line(frame.left, frame.py(value), frame.right, frame.py(value), grid);
    drawing.text(frame.left - 7, frame.py(value) + 6, step_text(value, step_of(values)),
                 {letters, "end"});
  }
  y_title(drawing, frame);
}

void draw_box(Drawing &drawing, const ChartFrame &frame)
{
  drawing.rectangle(frame.left, frame.top, frame.right - frame.left,
                    frame.bottom - frame.top, {"", chart_rim});
}

void draw_x_levels(Drawing &drawing, const ChartFrame &frame,
                   const std::vector<double> &levels)
{
  std::vector<double>      places, sizes;
  std::vector<std::string> words;
  for (const double level : levels)
  {
    places.push_back(frame.px(level));
    words.push_back(fmt::format("{:.4g}", level));
    sizes.push_back(width_of(words.back()));
  }
  const std::size_t n = stride(places, sizes);
  for (std::size_t i = 0; i < levels.size(); ++i)
  {
    drawing.line(places[i], frame.bottom, places[i], frame.bottom + 5, tick);
    if (i % n == 0)
      drawing.text(places[i], frame.bottom + 21, words[i], {letters, "middle"});
  }
  x_title(drawing, frame);
}

double room_for_levels(const std::vector<double> &levels)
{
  double widest = 0;
  for (const double level : levels)
    widest = std::max(widest, width_of(fmt::format("{:.4g}", level)));
  return std::max(74., 36 + widest);
}

void draw_y_levels(Drawing &drawing, const ChartFrame &frame,
                   const std::vector<double> &levels)
{
  std::vector<double> places, sizes;
  for (const double level : levels)
  {
    places.push_back(frame.py(level));
    sizes.push_back(letters);
  }
  const std::size_t n = stride(places, sizes);
  for (std::size_t i = 0; i < levels.size(); ++i)
  {
    drawing.line(frame.left - 5, places[i], frame.left, places[i], tick);
    if (i % n == 0)
      drawing.text(frame.left - 8, places[i] + 6, fmt::format("{:.4g}", levels[i]),
                   {letters, "end"});
  }
  y_title(drawing, frame);
}

FrameAxis axis_for(const std::string &title, const std::vector<double> &values,
                   const Floor floor)
{
  double low = INFINITY, high = -INFINITY;
  for (const double value : values)
    if (std::isfinite(value))
    {
      low  = std::min(low, value);
      high = std::max(high, value);
    }
  if (!(low <= high))
    return {title, 0, 1};
  if (floor == Floor::zero)
    low = std::min(low, 0.);
  if (!(high > low))
    return {title, low - 0.5 * std::max(std::abs(low), 1e-9),
            high + 0.5 * std::max(std::abs(high), 1e-9)};
  const double room = 0.06 * (high - low);
  return {title, floor == Floor::zero && low == 0 ? 0 : low - room, high + room};
}

std::string step_text(const double value, const double step)
{
  return decimal_text(
      value, std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-6)), 0, 6));
}

std::vector<std::string> lines_of(const std::string &words, const std::size_t most)
{
  std::vector<std::string> lines;
  std::istringstream       all(words);
  for (std::string word; all >> word;)
    if (!lines.empty() && lines.back().size() + 1 + word.size() <= most)
      lines.back() += " " + word;
    else
      lines.push_back(word);
  return lines;
}
} // namespace throughbend
