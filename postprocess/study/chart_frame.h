#pragma once
// The frame of a chart of a study: two axes with ticks and titles around a rectangle, and
// the way from values to places in it. Values are in shown units.

#include "postprocess/study/drawing.h"

namespace throughbend
{
constexpr const char *chart_ink = "#1a2028", *chart_rim = "#6b727c",
                     *chart_grid = "#dfe3e8", *limit_ink = "#a3220f";

constexpr double chart_width = 500; ///< of every drawing; at 390 px letters stay legible

struct FrameAxis
{
  std::string title;
  double      low = 0, high = 1;
};

struct ChartFrame
{
  FrameAxis x, y;
  double    left = 74, right = chart_width - 16, top = 12, bottom = 300;

  double px(double value) const
  {
    return left + (value - x.low) / (x.high - x.low) * (right - left);
  }
  double py(double value) const
  {
    return bottom - (value - y.low) / (y.high - y.low) * (bottom - top);
  }
};

/// Ticks at round numbers with their labels, and the titles.
void draw_x_axis(Drawing &drawing, const ChartFrame &frame);
void draw_y_axis(Drawing &drawing, const ChartFrame &frame);
void draw_box(Drawing &drawing, const ChartFrame &frame);

/// Ticks at given values instead, as many of them as do not run into each other.
void   draw_x_levels(Drawing &drawing, const ChartFrame &frame,
                     const std::vector<double> &levels);
double room_for_levels(const std::vector<double> &levels); ///< left of the chart
void   draw_y_levels(Drawing &drawing, const ChartFrame &frame,
                     const std::vector<double> &levels);

/// An axis that holds the values and a little more; from 0 where `from_zero`.
enum class Floor
{
  zero,
  values
};
FrameAxis axis_for(const std::string &title, const std::vector<double> &values,
                   Floor floor);

/// As many digits as tell values a step apart from each other.
std::string step_text(double value, double step);

/// Words in lines of about this many letters.
std::vector<std::string> lines_of(const std::string &words, std::size_t letters);
} // namespace throughbend
