// Section tools: line loads on shoulders and nose, and whether they dent.

#include "solver/screening/line_contact.h"
#include "solver/screening/screen_parts.h"

#include <algorithm>

namespace throughbend
{
namespace
{
// Tools are taken as steel.
constexpr double tool_young = 210000, tool_poisson = 0.3;

struct ToolSide
{
  std::string key, name;
  double      radius = 0; ///< [mm]
  double      yield  = 0; ///< of the tool [MPa]; 0 = not known
};

ScreenLine load_line(const ToolSide &side, const Banded &force, double width)
{
  ScreenLine line;
  line.key      = side.key + "_line_load";
  line.quantity = side.name + " line load";
  line.measure  = Measure::line_load;
  line.value    = force.value / width;
  line.low      = force.low / width;
  line.high     = force.high / width;
  line.formula  = {"N / width", "beam that wraps the nose",
                   "even across the width; curled "
                    "edges load a narrow coupon "
                    "unevenly"};
  return line;
}

/// Elastic pressure, but no more than the softer face can bear.
ScreenLine pressure_line(const Case &c, const ToolSide &side, const Banded &force)
{
  const double modulus =
      contact_modulus(c.material.young, c.material.poisson, tool_young, tool_poisson);
  const double bears = denting_pressure(c.material.flow.stress(0.05));
  const auto   at    = [&](double newtons)
  {
    return std::min(bears,
                    hertz_line(newtons / c.coupon.width, side.radius, modulus).pressure);
  };
  ScreenLine line;
  line.key      = side.key + "_pressure";
  line.quantity = side.name + " contact pressure";
  line.measure  = Measure::stress;
  line.value    = at(force.value);
  line.low      = at(force.low);
  line.high     = at(force.high);
  line.formula  = {"Hertz line, at most 2.97 s of the coupon",
                   "Hertz (1881), Johnson (1985), Prandtl (1920), from memory",
                   "dry, elastic tool of steel; first yield of the tool below its face at "
                    "1.79 times its yield stress, a lasting dent from 2.97"};
  if (side.yield > 0)
  {
    line.against = {"first yield of the tool at", first_yield_pressure(side.yield),
                    Measure::stress};
    line.verdict = *line.high <= first_yield_pressure(side.yield) ? Verdict::ok
                   : line.value <= denting_pressure(side.yield)   ? Verdict::close
                                                                  : Verdict::no;
  }
  else
    line.note = side.key == "shoulder" ? "shoulders.yield is not given"
                                       : "plunger.yield is not given";
  return line;
}
} // namespace

ScreenSection screen_tools(const Case &c, const ForceBand &band)
{
  if (band.points.empty())
    return {"Tools", {}};
  const ToolSide shoulder{"shoulder", "shoulder", c.fixture.shoulders.radius,
                          c.fixture.shoulders.yield};
  const ToolSide nose{"nose", "nose", c.fixture.plunger.nose_radius,
                      c.fixture.plunger.yield};
  // The nose's hardest time is its one line of first touch; later the coupon hugs it.
  const Banded touch{0.9 * band.first_touch, band.first_touch, 1.1 * band.first_touch};
  return {"Tools",
          {load_line(shoulder, band.shoulder_force, c.coupon.width),
           pressure_line(c, shoulder, band.shoulder_force),
           load_line(nose, touch, c.coupon.width), pressure_line(c, nose, touch)}};
}
} // namespace throughbend
