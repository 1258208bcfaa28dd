// Section force: peak of the ram force three ways, against the ram.

#include "inputs/metal/considere.h"
#include "solver/screening/handbook_force.h"
#include "solver/screening/margins.h"
#include "solver/screening/screen_parts.h"

namespace throughbend
{
namespace
{
ScreenLine peak_line(const Case &c, const ForceBand &band)
{
  ScreenLine line;
  line.key      = "peak_force";
  line.quantity = "peak ram force";
  line.measure  = Measure::force;
  line.value    = band.peak.force.value;
  line.low      = band.peak.force.low;
  line.high     = band.peak.force.high;
  line.against  = {"ram", c.ram.capacity, Measure::force};
  line.verdict  = line.value > c.ram.capacity                           ? Verdict::no
                  : *line.high > margins::rating_share * c.ram.capacity ? Verdict::close
                                                                        : Verdict::ok;
  line.formula  = {"beam that wraps the nose",
                   "finite bending, Hill (1950), and beam statics with friction",
                   "plane strain (a narrow coupon takes up to 13 % less), one metal, no "
                    "squeeze, no frame; band from simulated passes"};
  if (band.may_touch_frame)
    line.note = "more where an end touches the frame";
  else if (band.squeezed)
    line.note = "until the squeeze begins";
  else if (band.bites)
    line.note = "sharp shoulders bite into the legs";
  return line;
}

ScreenLine peak_travel_line(const ForceBand &band)
{
  ScreenLine line;
  line.key      = "peak_travel";
  line.quantity = "travel at that peak";
  line.value    = band.peak.travel;
  // The top of the curve is flat; that of a metal that kinks is jagged as well.
  line.low     = 0.88 * line.value;
  line.high    = (band.kinks ? 1.2 : 1.12) * line.value;
  line.formula = {"beam that wraps the nose", "see peak ram force",
                  "the top of the curve is flat"};
  return line;
}

ScreenLine straight_line(const ForceBand &band)
{
  ScreenLine line;
  line.key      = "straight_leg_force";
  line.quantity = "peak, straight legs";
  line.measure  = Measure::force;
  line.value    = (band.straight_low + band.straight_high) / 2;
  line.low      = band.straight_low;
  line.high     = band.straight_high;
  line.formula  = {"2 M (cos b + mu sin b) / (a + mu t/2)",
                   "elementary statics; Hill (1950) for M",
                   "low: yield stress alone; high: hardened moment at the nose's radius, "
                    "legs that do not bend"};
  return line;
}

ScreenLine handbook_line(const Case &c)
{
  const double strength = c.material.tensile_strength > 0
                              ? c.material.tensile_strength
                              : considere(c.material.flow).stress;
  const double unit     = handbook_unit(c.coupon.width, c.coupon.thickness, strength,
                                        c.fixture.shoulders.opening);
  ScreenLine   line;
  line.key      = "handbook_force";
  line.quantity = "peak, handbook";
  line.measure  = Measure::force;
  line.low      = handbook_low * unit;
  line.high     = handbook_high * unit;
  line.value    = (*line.low + *line.high) / 2;
  line.formula  = {"K w t^2 S / opening, K 1.1 to 1.5",
                   "Kalpakjian & Schmid; Groover (from memory)",
                   "V- and U-dies of usual proportions; S = tensile strength; made for "
                    "the 4t fixture, rough for others"};
  return line;
}
} // namespace

ScreenSection screen_force(const Case &c, const ForceBand &band)
{
  ScreenSection section{"Ram force", {}};
  if (!band.points.empty())
    section.lines = {peak_line(c, band), peak_travel_line(band)};
  section.lines.push_back(straight_line(band));
  section.lines.push_back(handbook_line(c));
  return section;
}
} // namespace throughbend
