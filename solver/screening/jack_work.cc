#include "solver/screening/jack_work.h"

namespace throughbend
{
namespace
{
double ram_area(const Jack &jack)
{
  constexpr double pi = 3.14159265358979323846;
  return pi / 4 * jack.bore * jack.bore;
}
} // namespace

JackWork jack_work(const Jack &jack, const double force, const double travel)
{
  const double ratio = jack.pump_bore * jack.pump_bore / (jack.bore * jack.bore);
  JackWork     work;
  work.pressure = force / ram_area(jack);
  if (jack.pump_bore > 0 && jack.pump_stroke > 0)
    work.strokes = travel / (jack.pump_stroke * ratio);
  if (jack.pump_bore > 0 && jack.lever_ratio > 0)
    work.hand_force = force * ratio / (jack.lever_ratio * pump_efficiency);
  return work;
}

double jack_ceiling(const Jack &jack)
{
  return usual_pressure * ram_area(jack);
}
} // namespace throughbend
