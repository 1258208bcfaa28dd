#include "postprocess/fit/fit_chart.h"

#include "postprocess/charts/svg_chart.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace throughbend
{
namespace
{
/// Height of a chart's view box.
double height_of(const std::string &svg)
{
  const std::string mark  = "viewBox=\"0 0 ";
  const std::size_t begin = svg.find(mark) + mark.size();
  return std::strtod(svg.c_str() + svg.find(' ', begin), nullptr);
}

/// As a part of a larger document, at a height.
std::string placed(std::string svg, const double y)
{
  svg.insert(svg.find("<svg") + 4, " y=\"" + std::to_string(std::lround(y)) +
                                       "\" width=\"500\" height=\"" +
                                       std::to_string(std::lround(height_of(svg))) + "\"");
  return svg;
}
} // namespace

std::string fit_chart(const FitReport &r)
{
  const ReadingFit &fit = r.search.fit;
  Chart             forces, rests;
  ChartLine         read{"readings", {}, LineLook::points}, model{"fitted", {}, {}},
      rest{"reading less fitted", {}, LineLook::points},
      error{"one standard error", {}, {}};
  ChartLine           below{"", {}, LineLook::continued};
  std::vector<double> travels, values, leftovers;
  for (std::size_t i = 0; i < r.question.readings.push.size(); ++i)
  {
    const Reading &reading = r.question.readings.push[i];
    travels.push_back(reading.travel);
    values.push_back(reading.force / 1000);
    read.points.emplace_back(reading.travel, reading.force / 1000);
    if (i >= fit.residual.size() || !std::isfinite(fit.residual[i]))
      continue;
    values.push_back(fit.model[i] / 1000);
    model.points.emplace_back(reading.travel, fit.model[i] / 1000);
    for (const double value : {fit.residual[i], fit.sigma[i], -fit.sigma[i]})
      leftovers.push_back(value / 1000);
    rest.points.emplace_back(reading.travel, fit.residual[i] / 1000);
    error.points.emplace_back(reading.travel, fit.sigma[i] / 1000);
    below.points.emplace_back(reading.travel, -fit.sigma[i] / 1000);
  }
  forces.title = "Readings and fitted force over travel";
  forces.x     = {"travel as read [mm]", "", 1, 0, 1};
  forces.y     = {"force as read [kN]", "", 1, 0, 1};
  hold(forces.x, travels);
  hold(forces.y, values);
  forces.lines = {model, read};
  rests.title  = "Residuals over travel";
  rests.x      = forces.x;
  rests.y      = {"residual [kN]", "", 1, 0, 1};
  hold(rests.y, leftovers);
  below.look              = LineLook::by_order;
  rests.lines             = {error, rest, below};
  const std::string above = svg_text(forces), under = svg_text(rests);
  const double      middle = height_of(above), all = middle + height_of(under);
  const std::string height = std::to_string(std::lround(all));
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"500\" height=\"" + height +
         "\" viewBox=\"0 0 500 " + height +
         "\" font-family=\"sans-serif\">\n<rect width=\"500\" height=\"" + height +
         "\" fill=\"#ffffff\"/>\n" + placed(above, 0) + placed(under, middle) + "</svg>\n";
}
} // namespace throughbend
