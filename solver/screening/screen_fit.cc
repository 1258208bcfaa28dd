// Section fit: room beside the leg, pinch, squeeze.

#include "meshes/coupon/leg_reach.h"
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
  line.value          = c.fixture.clearance(thickest(c));
  const double wanted = margins::clearance_share * thickest(c);
  line.against        = {"wanted", wanted, Measure::length};
  line.verdict        = line.value <= margins::no_room ? Verdict::no
                        : line.value < wanted          ? Verdict::close
                                                       : Verdict::ok;
  if (line.value <= margins::no_room)
  {
    line.shown = "none";
    if (line.value < -margins::no_room)
      line.also = {"the leg is too thick by", -line.value, Measure::length};
  }
  else if (c.coupon.taper != 0)
    line.note = "at the coupon's thick end";
  line.formula = {"(opening - plunger width) / 2 - thickness", "geometry",
                  "flat faces; bent edges stand out of the face by up to 0.13 thickness"};
  return line;
}

ScreenLine pinch_line(const Case &c)
{
  ScreenLine line;
  line.key      = "pinch_thickness";
  line.quantity = "thickness at which legs pinch";
  line.value    = (c.fixture.shoulders.opening - c.fixture.plunger.width) / 2;
  line.against  = {c.coupon.taper != 0 ? "coupon's thick end" : "coupon", thickest(c),
                  Measure::length};
  line.verdict  = thickest(c) >= line.value - margins::no_room ? Verdict::no
                  : thickest(c) * (1 + margins::clearance_share) > line.value
                      ? Verdict::close
                      : Verdict::ok;
  line.formula  = {"(opening - plunger width) / 2", "geometry",
                   "flank and shoulder upright and parallel"};
  return line;
}

// The simulated squeeze over the slip-line force. The higher the leg over its bite, the
// more count the bulge before the shoulder and the leg's springing back, which lengthen the
// bite: 16 passes in plane strain, with several metals, frictions and radii, were 1.03
// to 1.17 times as high at 3 to 7 heights over bite (1.25 on a small radius), 1.46 and 1.52
// at 12; the rung `ironing_table` of tests/verify has 1.03 to 1.36 at 4 to 8.
constexpr double squeeze_low = 0.95, squeeze_mean = 0.02, squeeze_high = 0.05,
                 tallest_ratio = 12;

Ironing leg_ironing(const Case &c)
{
  const double excess = -c.fixture.clearance(thickest(c));
  return {excess, thickest(c) - excess, c.fixture.shoulders.radius,
          c.fixture.shoulders.roll()
              ? 0
              : (c.friction.shoulders + c.friction.left_shoulder()) / 2};
}

/// Never ok: a leg that is squeezed may jam, whatever the ram can do.
ScreenLine squeeze_line(const Case &c, const ForceBand &band)
{
  const Ironing leg = leg_ironing(c);
  const double  squeeze =
      2 * c.coupon.width * ironing_force(leg, c.material.flow.stress(dent_strain));
  const double ratio = std::min(bite_ratio(leg), tallest_ratio);
  ScreenLine   line;
  line.key      = "squeeze_force";
  line.quantity = "force to bend and squeeze";
  line.measure  = Measure::force;
  // First the bend has its peak, then upright legs are squeezed: the larger of the two.
  const Banded &bend = band.peak.force;
  line.value         = std::max(bend.value, (1 + squeeze_mean * ratio) * squeeze);
  line.low           = std::max(0.95 * bend.low, squeeze_low * squeeze);
  line.high          = std::max(bend.high, (1.1 + squeeze_high * ratio) * squeeze);
  line.against       = {"ram", c.ram.capacity, Measure::force};
  line.verdict       = line.value > c.ram.capacity ? Verdict::no : Verdict::close;
  line.note          = "each leg is thicker than its room";
  if (c.coupon.taper != 0)
  {
    *line.low /= 2; // as where only one leg is
    line.note = "the thick end is thicker than its room";
  }
  line.formula = {
      "the larger of bend and 2 w p (t - room + mu bite)",
      "slip lines of a dented slab, p / 2k = 1 to 2.57: Hill (1950), from memory; flow "
      "stress at 0.08 strain as Tabor (1951), from memory",
      "upright legs; (1 + 0.02 h / bite) times that, from 0.95 to 1.1 + 0.05 h / bite "
      "times, h = t + room: bulge and springing back lengthen the bite; a leg may also jam "
      "for good"};
  return line;
}
} // namespace

ScreenSection screen_fit(const Case &c, const ForceBand &band)
{
  ScreenSection section{"Fit", {clearance_line(c), pinch_line(c)}};
  if (c.fixture.clearance(thickest(c)) < 0)
    section.lines.push_back(squeeze_line(c, band));
  return section;
}
} // namespace throughbend
