// Section jack: gauge, strokes, hand. Empty unless the jack's bore is known.

#include "solver/screening/jack_work.h"
#include "solver/screening/length_needed.h"
#include "solver/screening/margins.h"
#include "solver/screening/screen_parts.h"

#include <cmath>

namespace throughbend
{
namespace
{
constexpr double leakage = 0.15; // and springiness: strokes that do not move the ram [-]

const std::string handbook = "hydrostatics; limits of hand hydraulics from memory";

ScreenLine pressure_line(const JackWork &low, const JackWork &mean, const JackWork &high)
{
  ScreenLine line;
  line.key      = "gauge_pressure";
  line.quantity = "gauge pressure at the peak";
  line.measure  = Measure::stress;
  line.value    = mean.pressure;
  line.low      = low.pressure;
  line.high     = high.pressure;
  line.against  = {"usual ceiling", usual_pressure, Measure::stress};
  line.verdict  = line.value > usual_pressure   ? Verdict::no
                  : *line.high > usual_pressure ? Verdict::close
                                                : Verdict::ok;
  line.formula  = {"F / ram area", handbook,
                   "no loss in hose or seal; the jack's own rating "
                    "governs"};
  return line;
}

ScreenLine strokes_line(double strokes)
{
  ScreenLine line;
  line.key      = "pump_strokes";
  line.quantity = "pump strokes for the travel";
  line.measure  = Measure::count;
  line.value    = std::ceil(strokes); // a part of one is one
  line.low      = std::ceil((1 - margins::less_travel) * strokes);
  line.high     = std::ceil((1 + leakage) * (1 + margins::more_travel) * strokes);
  line.formula  = {"travel / (stroke (d_pump/d_ram)^2)", handbook,
                   "band: that of the travel, and up to 15 % for leakage and springiness, "
                    "common practice"};
  return line;
}

ScreenLine hand_line(double low, double mean, double high)
{
  ScreenLine line;
  line.key      = "hand_force";
  line.quantity = "hand force at the peak";
  line.measure  = Measure::force;
  line.value    = mean;
  line.low      = low;
  line.high     = high;
  line.against  = {"a hand does", hard_hand, Measure::force};
  line.verdict  = line.value > hard_hand   ? Verdict::no
                  : *line.high > easy_hand ? Verdict::close
                                           : Verdict::ok;
  line.formula  = {
       "F (d_pump/d_ram)^2 / (lever 0.85)", handbook,
       "efficiency 0.85 taken; 200 to 400 N (45 to 90 lbf) on a handle is common practice"};
  return line;
}
} // namespace

ScreenSection screen_jack(const Case &c, const ForceBand &band)
{
  ScreenSection section{"Jack", {}};
  const Jack   &jack = c.ram.jack;
  if (!jack.present() || band.points.empty())
    return section;
  const double   travel = travel_needed(c);
  const Banded  &force  = band.peak.force;
  const JackWork low    = jack_work(jack, force.low, travel),
                 mean   = jack_work(jack, force.value, travel),
                 high   = jack_work(jack, force.high, travel);
  section.lines.push_back(pressure_line(low, mean, high));
  if (mean.strokes)
    section.lines.push_back(strokes_line(*mean.strokes));
  if (mean.hand_force)
    section.lines.push_back(hand_line(*low.hand_force, *mean.hand_force, *high.hand_force));
  return section;
}
} // namespace throughbend
