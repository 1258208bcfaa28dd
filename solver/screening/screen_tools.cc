// Section tools: line loads on shoulders and nose, and whether they dent.

#include "inputs/case/zone_flow.h"
#include "meshes/coupon/leg_reach.h"
#include "solver/mechanics/line_contact.h"
#include "solver/screening/margins.h"
#include "solver/screening/screen_parts.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
struct ToolSide
{
  std::string key, name;
  double      radius = 0;  ///< [mm]
  double      yield  = 0;  ///< of the tool [MPa]; 0 = not known
  std::string when   = {}; ///< the load is that, with its comma: `, first touch`
  std::string later  = {}; ///< what the upper end of its pressure holds
  double      strain = 0;  ///< of the face that bears on it at last [-]
  std::string more   = {}; ///< why a load has no upper end
};

// The coupon hugs the nose after its first touch: one patch of it then bears 0.9 to 1.77
// times what a shoulder does (126 plane passes of all sizes and metals), on a part of the
// round. As one line that is the upper end, as it is push's.
constexpr double hugging = 1.8;

/// A leg that does not fit presses between flank and shoulder with several times the bend's
/// load, on a length that no formula here tells.
Banded unless_squeezed(const Case &c, Banded force)
{
  if (c.fixture.clearance(thickest(c)) <= margins::no_room)
    force.high = std::numeric_limits<double>::infinity();
  return force;
}

ScreenLine load_line(const ToolSide &side, const Banded &force, double width)
{
  ScreenLine line;
  line.key      = side.key + "_line_load";
  line.quantity = side.name + " line load" + side.when;
  line.measure  = Measure::line_load;
  line.value    = force.value / width;
  line.low      = force.low / width;
  line.high     = force.high / width;
  line.formula  = {
       "N / width", "beam that wraps the nose",
       "even across the width; curled edges load a narrow coupon unevenly; later "
        "the nose bears more, spread over its round"};
  if (!std::isfinite(*line.high))
    line.note = side.more;
  return line;
}

/// Of the coupon's face where it is of such a flow stress [MPa].
Bearing bearing(const Case &c, const ToolSide &side, const double newtons,
                const double stress)
{
  // Beyond any load the coupon's own face gives way: no higher pressure is to be had.
  const double most = 1e6; // [N/mm]
  return tool_bearing(std::min(newtons / c.coupon.width, most), side.radius, c.material,
                      stress);
}

/// Largest pressure of a load and its ends [MPa]: any zone of a weld may bear on the tool,
/// as strained as the bend makes its face.
Banded pressures(const Case &c, const ToolSide &side, const Banded &force)
{
  const double most = zone_stresses(c, std::max(bearing_strain, side.strain)).most;
  return {bearing(c, side, force.low, zone_stresses(c, bearing_strain).least).pressure,
          bearing(c, side, force.value, c.material.flow.stress(bearing_strain)).pressure,
          bearing(c, side, force.high, most).pressure};
}

std::string yield_key(const ToolSide &side)
{
  return side.key == "shoulder" ? "shoulders.yield" : "plunger.yield";
}

ScreenLine pressure_line(const Case &c, const ToolSide &side, const Banded &force)
{
  ScreenLine line;
  line.key              = side.key + "_pressure";
  line.quantity         = side.name + " peak contact pressure";
  line.measure          = Measure::stress;
  const Banded pressure = pressures(c, side, force);
  line.value            = pressure.value;
  line.low              = pressure.low;
  line.high             = pressure.high;
  line.also             = {"on a patch as wide as",
                           bearing(c, side, force.value, c.material.flow.stress(bearing_strain)).width,
                           Measure::length};
  line.formula          = {
               "Hertz line: 2 N / (pi a w) in the middle of a patch 2 a wide; at most 2.97 s "
                        "of the coupon",
               "Hertz (1881), Johnson (1985), Prandtl (1920), from memory; s at 0.05 strain, upper "
                        "end at the bend's",
               "dry, elastic tool of steel, patch across all of the coupon's width; first "
                        "yield of the tool below its face at 1.79 times its yield stress, a lasting "
                        "dent from 2.97" +
                   side.later};
  if (side.yield > 0)
  {
    line.against = {"first yield of the tool at", first_yield_pressure(side.yield),
                    Measure::stress};
    line.verdict = *line.high <= first_yield_pressure(side.yield) ? Verdict::ok
                   : line.value <= denting_pressure(side.yield)   ? Verdict::close
                                                                  : Verdict::no;
  }
  else
    line.note = yield_key(side) + " is not given";
  if (!std::isfinite(force.high) && line.verdict == Verdict::figure)
    line.note = side.more;
  return line;
}

/// How deep the tool is dented; what it would have to be made of where that is not known.
ScreenLine dent_line(const Case &c, const ToolSide &side, const Banded &force)
{
  const Banded pressure = pressures(c, side, force);
  ScreenLine   line;
  line.key      = side.key + "_dent";
  line.quantity = side.name + " dented by";
  line.against  = {"no mark on a tool that yields from",
                   pressure.high / first_yield_pressure(1), Measure::stress};
  line.formula  = {
       "a^2 / (2 R), a = N / (2 w 2.97 Y)",
       "chord of a round; Prandtl's (1920) pressure, from memory",
       "first use, at the largest force; the leg as a flat face that is harder than "
        "the tool; further coupons deepen it, edges of a narrow one more" +
           side.later};
  if (side.yield <= 0)
  {
    line.shown = "not known";
    line.note  = yield_key(side) + " is not given";
    return line;
  }
  const auto depth = [&](const double newtons, const double bears)
  {
    return bears > denting_pressure(side.yield)
               ? flattened_depth(newtons / c.coupon.width, side.radius, side.yield)
               : 0.;
  };
  line.value = depth(force.value, pressure.value);
  line.low   = depth(force.low, pressure.low);
  line.high  = depth(force.high, pressure.high);
  if (*line.high == 0)
  {
    const bool elastic = pressure.high <= first_yield_pressure(side.yield);
    line.shown         = elastic ? "none" : "none that shows";
    line.verdict       = elastic ? Verdict::ok : Verdict::close;
  }
  else
    line.verdict = line.value > 0 ? Verdict::no : Verdict::close;
  return line;
}
} // namespace

ScreenSection screen_tools(const Case &c, const ForceBand &band)
{
  if (band.points.empty())
    return {"Tools", {}};
  const double      strain = band.outer_strain.value;
  const std::string more   = c.fixture.clearance(thickest(c)) <= margins::no_room
                                 ? "squeezed legs press harder"
                                 : "more where an end touches the frame";
  const ToolSide    shoulder{
      "shoulder", "shoulder", c.fixture.shoulders.radius, c.fixture.shoulders.yield, "", "",
      strain,     more};
  const ToolSide nose{"nose",
                      "nose",
                      c.fixture.plunger.nose_radius,
                      c.fixture.plunger.yield,
                      ", first touch",
                      "; upper end: what the nose bears when the coupon hugs it, as if on "
                      "one line",
                      strain,
                      more};
  const Banded   touch = unless_squeezed(c, band.first_touch),
               bend    = unless_squeezed(c, band.shoulder_force),
               hug = {touch.low, touch.value, std::max(touch.high, hugging * bend.high)};
  return {"Tools",
          {load_line(shoulder, bend, c.coupon.width), pressure_line(c, shoulder, bend),
           dent_line(c, shoulder, bend), load_line(nose, touch, c.coupon.width),
           pressure_line(c, nose, hug), dent_line(c, nose, hug)}};
}
} // namespace throughbend
