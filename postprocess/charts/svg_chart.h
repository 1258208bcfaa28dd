#pragma once
// A small chart as SVG text: lines over two axes, each with a second scale in the other
// family of units on the far side, shaded bands and stretches, limits and marks. Real text,
// no script, no style from elsewhere, so that it prints and can be saved. Knows nothing of
// runs.

#include <string>
#include <utility>
#include <vector>

namespace throughbend
{
struct ChartAxis
{
  std::string title;            ///< quantity and unit
  std::string other_title;      ///< of the second scale; empty: there is none
  double      other_factor = 1; ///< values of the second scale per value of the first
  double      low = 0, high = 1;
};

/// By its place among the lines, as a dashed continuation of the first, or as single
/// points.
enum class LineLook
{
  by_order,
  continued,
  points
};

struct ChartLine
{
  std::string                            label; ///< in the key below; empty: not in it
  std::vector<std::pair<double, double>> points;
  LineLook                               look = LineLook::by_order;
};

struct ChartBand
{
  std::string label;
  double      from = 0, to = 0; ///< along x
};

/// A value of x or y that is marked across the whole chart.
enum class LimitOf
{
  x,
  y
};
struct ChartLimit
{
  LimitOf     of    = LimitOf::y;
  double      value = 0;
  std::string label;
};

struct ChartMark
{
  double      x = 0, y = 0;
  std::string label;
};

/// Whether a point moves along the first line, in step with the page's slider.
enum class Follow
{
  nothing,
  slider
};

struct Chart
{
  std::string             title; ///< what it shows, for readers and screen readers
  ChartAxis               x, y;
  std::vector<ChartBand>  bands;
  std::vector<ChartBand>  stretches; ///< shaded, each named in a row of its own below
  std::vector<ChartLine>  lines;
  std::vector<ChartLimit> limits;
  std::vector<ChartMark>  marks;
  Follow                  follow = Follow::nothing;
};

/// Sets the axis so that it holds all values and a little more.
void hold(ChartAxis &axis, const std::vector<double> &values);

/// The chart as an <svg> element. What is not a number breaks a line in two.
std::string svg_text(const Chart &chart);

/// About `wanted` values at a step of 1, 2 or 5 times a power of ten.
std::vector<double> ticks(double low, double high, int wanted);
} // namespace throughbend
