// Charts put points where the axes say, and let nothing through that is not a number.

#include "postprocess/charts/svg_chart.h"
#include "postprocess/words/reader_units.h"
#include "tests/support/texts.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace throughbend;

namespace
{
Chart small_chart()
{
  Chart chart;
  chart.title = "a & b";
  chart.x     = {"travel [mm]", "travel [in]", 1 / 25.4, 0, 100};
  chart.y     = {"force [kN]", "", 1, 0, 10};
  return chart;
}
} // namespace

TEST_CASE("ticks stand at 1, 2 or 5 times a power of ten, within the axis", "[report]")
{
  CHECK(ticks(0, 10, 5) == std::vector<double>{0, 2, 4, 6, 8, 10});
  CHECK(ticks(-0.3, 0.25, 5).front() == Approx(-0.3));
  CHECK(ticks(0, 100 / 25.4, 6).back() <= 100 / 25.4 + 1e-9);
  CHECK(ticks(3, 3, 5) == std::vector<double>{3});
}

TEST_CASE("an axis holds its values, zero, and a little room", "[report]")
{
  ChartAxis axis;
  hold(axis, {2, 5, std::numeric_limits<double>::quiet_NaN()});
  CHECK(axis.low == 0);
  CHECK(axis.high > 5);
  CHECK(axis.high < 6);
  hold(axis, {-1});
  CHECK(axis.low < -1);
  hold(axis, {});
  CHECK(axis.high > axis.low);
}

TEST_CASE("the line's ends lie on the corners of the plot", "[report]")
{
  Chart chart  = small_chart();
  chart.follow = Follow::slider;
  chart.lines.push_back({"line <1>", {{0, 0}, {100, 10}}});
  const std::string svg  = svg_text(chart);
  const auto        side = [&](const std::string &name)
  {
    const std::size_t at = svg.find(name + "=\"") + name.size() + 2;
    return svg.substr(at, svg.find('"', at) - at);
  };
  CHECK(has(svg, "d=\"M" + side("data-left") + " " + side("data-bottom") + "L" +
                     side("data-right") + " " + side("data-top") + "\""));
  CHECK(has(svg, "line &lt;1&gt;"));
  CHECK(has(svg, "<title>a &amp; b</title>"));
}

TEST_CASE("what is no number, or beyond the axis, breaks the line", "[report]")
{
  const double nan   = std::numeric_limits<double>::quiet_NaN();
  Chart        chart = small_chart();
  chart.lines.push_back({"", {{0, 0}, {10, 1}, {20, nan}, {30, 1}, {101, 1}, {40, 2}}});
  const std::string svg = svg_text(chart);
  CHECK_FALSE(has(svg, "nan"));
  const std::size_t path = svg.find("d=\"M");
  const std::string d    = svg.substr(path, svg.find('"', path + 3) - path);
  CHECK(std::count(d.begin(), d.end(), 'M') == 3);
}

TEST_CASE("a limit above the chart is said, not drawn", "[report]")
{
  Chart chart           = small_chart();
  chart.limits          = {{LimitOf::y, 20, "capacity"}, {LimitOf::y, 5, "inside"}};
  const std::string svg = svg_text(chart);
  CHECK(has(svg, "capacity, above this chart"));
  CHECK(has(svg, ">inside<"));
}

TEST_CASE("both families of units are written, the asked one first", "[report]")
{
  // 25.4 mm = 1 in and 4448.2216152605 N = 1 kip: NIST SP 811 (2008), appendix B.8.
  CHECK(ReaderUnits(UnitSystem::metric).length(25.4) == "25.4 mm (1.000 in)");
  CHECK(ReaderUnits(UnitSystem::us).force(44482.2) == "10.0 kip (44.5 kN)");
  const ReaderUnits::Scale us = ReaderUnits(UnitSystem::us).force_scale();
  CHECK(us.unit == "kip");
  CHECK(us.factor * 4448.2216152605 == Approx(1));
  CHECK(us.other_factor == Approx(4.4482216152605));
  CHECK(ReaderUnits(UnitSystem::metric).stress_scale().other_factor == Approx(0.1450377));
}

TEST_CASE("readings stand as single points, in the chart and in its key", "[report]")
{
  Chart chart = small_chart();
  chart.lines = {{"read", {{10, 2}, {50, 4}, {NAN, 3}, {120, 3}}, LineLook::points}};
  const std::string svg = svg_text(chart);
  std::size_t       n   = 0;
  for (std::size_t at = svg.find("<circle"); at != std::string::npos;
       at             = svg.find("<circle", at + 1))
    ++n;
  CHECK(n == 3); // two that can be shown, and one in the key
  CHECK_FALSE(has(svg, "<path"));
}
