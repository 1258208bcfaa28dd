// Section strain: nominal stretch, what the bend itself gives, against the elongation.

#include "inputs/units/nominal_strain.h"
#include "solver/screening/screen_parts.h"

#include <cmath>

namespace throughbend
{
namespace
{
ScreenLine nominal_line(const Case &c)
{
  const double elongation = c.material.elongation;
  ScreenLine   line;
  line.key      = "nominal_elongation";
  line.quantity = "nominal stretch, convex face";
  line.measure  = Measure::share;
  line.value    = nominal_strain(2 * c.fixture.plunger.nose_radius, c.coupon.thickness);
  line.formula  = {
       "t / (A + t), A = 2 nose radius", "ASME IX QW-466.1, 2010 ed. (read)",
       "unstretched middle, coupon lies on the nose; no hardening, weld or kink"};
  if (elongation > 0)
  {
    line.against = {"elongation of the metal", elongation, Measure::share};
    line.verdict = line.value > elongation         ? Verdict::no
                   : line.value > 0.8 * elongation ? Verdict::close
                                                   : Verdict::ok;
  }
  else
    line.note = "material.elongation is not given";
  return line;
}

ScreenLine outer_line(const Case &c, const ForceBand &band)
{
  const double elongation = c.material.elongation;
  ScreenLine   line;
  line.key      = "outer_elongation";
  line.quantity = "largest stretch, convex face";
  line.measure  = Measure::share;
  line.value    = std::expm1(band.outer_strain.value);
  line.low      = std::expm1(band.outer_strain.low);
  line.high     = std::expm1(band.outer_strain.high);
  line.formula  = {"wrapped bar (1 + 0.02 / hardening)",
                   "finite bending, Hill (1950); excess of the first touch as simulated "
                    "passes show it",
                   "plane strain, one metal; weld, HAZ and edges stretch differently; "
                    "without hardening there is no upper bound"};
  if (elongation > 0)
  {
    line.against = {"elongation of the metal", elongation, Measure::share};
    // A tension test spreads its elongation over a gauge and the stretch here is that of a
    // point: more than the elongation is no finding as long as the nominal one, by which
    // rules choose their plungers, is within it.
    const double nominal =
        nominal_strain(2 * c.fixture.plunger.nose_radius, c.coupon.thickness);
    line.verdict = *line.high <= elongation ? Verdict::ok
                   : nominal > elongation   ? Verdict::no
                                            : Verdict::close;
  }
  if (!std::isfinite(*line.high))
  {
    line.note    = "hardly hardens: the stretch gathers in a kink";
    line.verdict = Verdict::close;
  }
  return line;
}
} // namespace

ScreenSection screen_strain(const Case &c, const ForceBand &band)
{
  return {"Stretch", {nominal_line(c), outer_line(c, band)}};
}
} // namespace throughbend
