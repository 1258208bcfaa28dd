// Section release: springback and what could fly.

#include "solver/screening/ejection.h"
#include "solver/screening/screen_parts.h"
#include "solver/screening/springback.h"

#include <cmath>

namespace throughbend
{
namespace
{
constexpr double degree = 3.14159265358979323846 / 180; // [rad]

ScreenLine springback_line(const ForceBand &band)
{
  ScreenLine line;
  line.key      = "springback";
  line.quantity = "springback of each leg";
  line.measure  = Measure::angle;
  line.value    = band.springback.value / degree;
  line.low      = band.springback.low / degree;
  line.high     = band.springback.high / degree;
  line.formula  = {
       "M / (E' I) along bend and legs, times (2.5 t / nose radius)^0.3",
       "elastic unloading of the hardened moment; elementary beam theory; the power as "
        "simulated passes show it",
       "isotropic hardening; the room beside the legs decides how much is let go "
        "before the coupon is out"};
  return line;
}

ScreenLine gardiner_line(const Case &c)
{
  const double nu    = c.material.poisson;
  const double ratio = gardiner_ratio(c.fixture.plunger.nose_radius,
                                      2 / std::sqrt(3.) * c.material.flow.initial_stress(),
                                      c.material.young / (1 - nu * nu), c.coupon.thickness);
  ScreenLine   line;
  line.key      = "springback_gardiner";
  line.quantity = "same, without hardening or legs";
  line.measure  = Measure::angle;
  line.value    = 90 * (1 - ratio);
  line.formula  = {"90 deg (3 x - 4 x^3), x = R Y / (E t)",
                   "Gardiner (1957), from memory; plane strain",
                   "perfectly plastic, x below 1/2; a floor for metals that harden"};
  return line;
}

ScreenLine ejection_line(const Case &c, const ForceBand &band)
{
  ScreenLine line;
  line.key = "ejection_speed";
  line.quantity =
      band.may_touch_frame ? "ejection speed, frame untouched" : "ejection speed, at most";
  line.measure = Measure::speed;
  line.value   = ejection_bound(c.coupon, c.material.density, band.freed_energy);
  line.formula = {
      "sqrt(2 E / m)", "energy balance",
      "a bound for the coupon's own elastic energy, turned into motion of the whole "
      "coupon; a splinter can be faster, and energy stored in jack and frame is not "
      "included"};
  return line;
}
} // namespace

ScreenSection screen_release(const Case &c, const ForceBand &band)
{
  if (band.points.empty())
    return {"Release", {gardiner_line(c)}};
  return {"Release", {springback_line(band), gardiner_line(c), ejection_line(c, band)}};
}
} // namespace throughbend
