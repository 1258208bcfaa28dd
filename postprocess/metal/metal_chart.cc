#include "postprocess/metal/metal_chart.h"

#include "inputs/text/own_file.h"
#include "postprocess/charts/svg_chart.h"

#include <fmt/core.h>

#include <algorithm>
#include <sstream>

namespace throughbend
{
namespace
{
/// A chart with the height that it has.
struct Placed
{
  std::string svg;
  double      height = 0;
};

/// As a part of a document, so far below its top.
Placed placed(const Chart &chart, const double top)
{
  Placed             made{svg_text(chart), 0};
  const std::string  view = "viewBox=\"0 0 ";
  const std::size_t  at   = made.svg.find(view);
  std::istringstream size(made.svg.substr(at + view.size(), 40));
  double             width = 0;
  size >> width >> made.height;
  made.svg.insert(at, fmt::format("x=\"0\" y=\"{}\" width=\"{}\" height=\"{}\" ", top,
                                  width, made.height));
  return made;
}

void show_bend(Chart &chart, const FittedMetal &metal)
{
  if (metal.bend && metal.bend->nominal < chart.x.high)
    chart.bands.push_back(
        {"the bend", metal.bend->nominal, std::min(metal.bend->largest, chart.x.high)});
  chart.limits.push_back({LimitOf::x, metal.test.end.strain,
                          metal.test.necks ? "force maximum" : "end of the test"});
}

Chart laws_chart(const FittedMetal &metal, const double to)
{
  Chart chart;
  chart.title = "Flow curve of " + metal.file + " and the laws fitted to it";
  chart.x     = {"equivalent plastic strain [-]", "", 1, 0, to};
  chart.y     = {"true stress [MPa]", "", 1, 0, 1};
  ChartLine           data{"test", {}, LineLook::points};
  std::vector<double> values;
  for (const FlowPoint &point : metal.test.points)
  {
    data.points.emplace_back(point.plastic_strain, point.stress);
    values.push_back(point.stress);
  }
  constexpr int places = 200;
  for (const LawFit &fit : metal.laws.fits)
  {
    ChartLine line;
    line.label = fit.name + (&fit == &metal.laws.best() ? " (taken)" : "");
    for (int i = 0; i <= places; ++i)
    {
      const double p = to * i / places;
      line.points.emplace_back(p, fit.curve.stress(p));
    }
    if (&fit == &metal.laws.best())
      values.push_back(fit.curve.stress(to));
    chart.lines.push_back(line);
  }
  values.push_back(metal.test.beyond.swift.stress(to));
  chart.lines.push_back(data);
  hold(chart.y, values);
  show_bend(chart, metal);
  return chart;
}

Chart residual_chart(const FittedMetal &metal, const double to)
{
  Chart chart;
  chart.title              = "Residuals of " + metal.laws.best().name;
  chart.x                  = {"equivalent plastic strain [-]", "", 1, 0, to};
  chart.y                  = {"test less law [MPa]", "", 1, 0, 1};
  const LawFit       &best = metal.laws.best();
  const std::size_t   from = metal.test.points.size() - best.residuals.size();
  ChartLine           data{best.name, {}, LineLook::points};
  std::vector<double> values = {-1e-3, 1e-3};
  for (std::size_t i = 0; i < best.residuals.size(); ++i)
  {
    data.points.emplace_back(metal.test.points[from + i].plastic_strain, best.residuals[i]);
    values.push_back(best.residuals[i]);
  }
  chart.lines.push_back(data);
  hold(chart.y, values);
  chart.limits.push_back({LimitOf::x, metal.test.end.strain, ""});
  return chart;
}
} // namespace

std::string metal_drawing(const FittedMetal &metal)
{
  const double to =
      std::max(1.3 * metal.test.end.strain, metal.bend ? 1.1 * metal.bend->largest : 0.);
  const Placed laws      = placed(laws_chart(metal, to), 0);
  const Placed residuals = placed(residual_chart(metal, to), laws.height + 10);
  const double height    = laws.height + 10 + residuals.height;
  const double width     = 500; // of a chart
  return fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{}\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}\" height=\"{}\" "
      "viewBox=\"0 0 {} {}\" font-family=\"sans-serif\">\n<rect width=\"{}\" "
      "height=\"{}\" fill=\"#ffffff\"/>\n{}{}</svg>\n",
      drawing_mark, width, height, width, height, width, height, laws.svg, residuals.svg);
}
} // namespace throughbend
