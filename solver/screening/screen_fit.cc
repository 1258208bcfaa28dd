// Section fit: room beside the leg, pinch, squeeze.

#include "solver/screening/ironing.h"
#include "solver/screening/margins.h"
#include "solver/screening/screen_parts.h"

#include <algorithm>

namespace throughbend
{
namespace
{
ScreenLine clearance_line(const Case &c)
{
  ScreenLine line;
  line.key            = "clearance";
  line.quantity       = "clearance beside each leg";
  line.value          = c.fixture.clearance(c.coupon.thickness);
  const double wanted = margins::clearance_share * c.coupon.thickness;
  line.against        = {"wanted", wanted, Measure::length};
  line.verdict        = line.value < 0        ? Verdict::no
                        : line.value < wanted ? Verdict::close
                                              : Verdict::ok;
  line.formula        = {"(opening - plunger width) / 2 - thickness", "geometry",
                         "flat faces; bent edges stand out of the face by up to 0.13 thickness"};
  return line;
}

ScreenLine pinch_line(const Case &c)
{
  ScreenLine line;
  line.key      = "pinch_thickness";
  line.quantity = "thickness at which legs pinch";
  line.value    = (c.fixture.shoulders.opening - c.fixture.plunger.width) / 2;
  line.against  = {"coupon", c.coupon.thickness, Measure::length};
  line.verdict  = c.coupon.thickness > line.value ? Verdict::no
                  : c.coupon.thickness * (1 + margins::clearance_share) > line.value
                      ? Verdict::close
                      : Verdict::ok;
  line.formula  = {"(opening - plunger width) / 2", "geometry",
                   "flank and shoulder upright and parallel"};
  return line;
}

/// Flow stress of a leg that was bent at the nose and is now drawn thinner [MPa].
double leg_stress(const Case &c, double excess)
{
  return c.material.flow.stress(std::min(0.3, excess / c.coupon.thickness));
}

ScreenLine squeeze_line(const Case &c, const ForceBand &band)
{
  const double excess = -c.fixture.clearance(c.coupon.thickness);
  Ironing      i;
  i.excess             = excess;
  i.room               = c.coupon.thickness - excess;
  i.radius             = c.fixture.shoulders.radius;
  i.friction           = (c.friction.plunger + c.friction.shoulders) / 2;
  const double ironing = 2 * c.coupon.width * ironing_force(i, leg_stress(c, excess));
  ScreenLine   line;
  line.key      = "squeeze_force";
  line.quantity = "force to bend and squeeze through";
  line.measure  = Measure::force;
  // When the squeeze is at its hardest, the bend's own force has fallen below its peak.
  const Banded &bend = band.peak.force;
  line.value         = std::max(bend.value, 0.8 * bend.value + ironing);
  line.low           = std::max(0.95 * bend.low, 0.6 * (bend.low + ironing));
  line.high          = bend.high + 2 * ironing;
  line.against       = {"ram", c.ram.capacity, Measure::force};
  line.verdict       = *line.low > c.ram.capacity    ? Verdict::no
                       : *line.high > c.ram.capacity ? Verdict::close
                                                     : Verdict::ok;
  line.formula       = {
            "bend + 2 w room 2k (1+f)/f [1-(room/t)^f]",
            "Sachs' strip drawing; Hoffman & Sachs (1953), from memory",
            "band of the squeeze x 0.6 to 2: no bending in the leg, the bite taken as "
                  "one mean angle; a leg may also jam for good"};
  return line;
}
} // namespace

ScreenSection screen_fit(const Case &c, const ForceBand &band)
{
  ScreenSection section{"Fit", {clearance_line(c), pinch_line(c)}};
  if (c.fixture.clearance(c.coupon.thickness) < 0)
    section.lines.push_back(squeeze_line(c, band));
  return section;
}
} // namespace throughbend
