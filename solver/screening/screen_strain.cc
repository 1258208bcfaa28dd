// Section strain: nominal stretch, what the bend itself gives, against the elongation.

#include "inputs/units/nominal_strain.h"
#include "solver/screening/screen_parts.h"

#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
/// Between the corners of a flat nose the coupon may bend as if that were a half round.
double least_nominal(const Case &c)
{
  return nominal_strain(c.fixture.plunger.width, c.coupon.thickness);
}

/// Zones that flow at stresses so little apart share the stretch [-]: a weld metal 3 %
/// stronger than its plate moves it by less than the band of one metal is wide.
constexpr double even = 1.03;

/// What a stronger zone does not stretch its neighbours do.
bool plate_yields_first(const ForceBand &band)
{
  return band.strongest_zone > even;
}

/// Of what the bend asks of one metal, whatever zone it is.
ScreenLine bend_line(const Case &c)
{
  const double elongation = c.material.elongation;
  const double least      = least_nominal(c);
  ScreenLine   line;
  line.key      = "nominal_elongation";
  line.quantity = "nominal stretch, convex face";
  line.measure  = Measure::share;
  line.value    = nominal_strain(c.fixture.plunger.bend_diameter(), c.coupon.thickness);
  line.formula  = {
       "t / (A + t), A = 2 nose radius", "ASME IX QW-466.1, 2010 ed. (read)",
       "unstretched middle, coupon lies on the nose; no hardening, weld or kink"};
  if (c.fixture.plunger.flat_nose())
  {
    line.low  = least;
    line.high = line.value;
    line.note = "least: with A = plunger width, as if the nose were a half round";
  }
  if (elongation > 0)
  {
    line.against = {"elongation of the metal", elongation, Measure::share};
    line.verdict = least > elongation              ? Verdict::no
                   : line.value > 0.8 * elongation ? Verdict::close
                                                   : Verdict::ok;
  }
  else
    line.note = "material.elongation is not given";
  return line;
}

ScreenLine nominal_line(const Case &c, const ForceBand &band)
{
  ScreenLine line = bend_line(c);
  if (line.verdict == Verdict::ok && plate_yields_first(band))
  {
    line.verdict = Verdict::close;
    line.note    = "a plate softer than its weld is stretched more";
  }
  return line;
}

/// What a zone of a weld states that it bears, beside what the bend gives on the average.
/// Never ok: stretch gathers in the softer zone, so it may get more than that.
ScreenLine zone_line(const Case &c, const std::string &name, const std::string &key,
                     const ZoneFlow &zone)
{
  ScreenLine line = bend_line(c);
  line.key        = "nominal_elongation_" + key;
  line.quantity   = "nominal stretch, " + name;
  line.verdict    = Verdict::close;
  line.note       = "a zone softer than its neighbours is stretched more";
  if (zone.limit_strain > 0)
  {
    const double limit = std::expm1(zone.limit_strain);
    line.against       = {"elongation at its limit strain", limit, Measure::share};
    if (least_nominal(c) > limit)
      line.verdict = Verdict::no;
  }
  else
  {
    line.against = {"elongation of the " + name, zone.elongation, Measure::share};
    if (least_nominal(c) > zone.elongation)
      line.verdict = Verdict::no;
  }
  return line;
}

ScreenLine outer_line(const Case &c, const ForceBand &band)
{
  const double elongation = c.material.elongation;
  ScreenLine   line;
  line.key         = "outer_elongation";
  line.quantity    = "largest stretch, convex face";
  line.measure     = Measure::share;
  line.value       = std::expm1(band.outer_strain.value);
  line.low         = std::expm1(band.outer_strain.low);
  line.high        = zones_share_unevenly(band) ? std::numeric_limits<double>::infinity()
                                                : std::expm1(band.outer_strain.high);
  line.formula     = {"wrapped bar (1 + 0.02 / hardening)",
                      "finite bending, Hill (1950); excess of the first touch as simulated "
                          "passes show it",
                      "plane strain, one metal; weld, HAZ and edges stretch differently; "
                          "without hardening, and beside a stronger zone, there is no "
                          "upper bound"};
  const auto weigh = [&](const std::string &words, const double limit, const double least)
  {
    line.against = {words, limit, Measure::share};
    line.verdict = *line.high <= limit ? Verdict::ok
                   : least > limit     ? Verdict::no
                                       : Verdict::close;
  };
  if (c.material.limit_strain > 0)
    weigh("elongation at its limit strain", std::expm1(c.material.limit_strain), *line.low);
  // A tension test spreads its elongation over a gauge and the stretch here is that of a
  // point: more than the elongation is no finding as long as the nominal one, by which
  // rules choose their plungers, is within it.
  else if (elongation > 0)
    weigh("elongation of the metal", elongation, least_nominal(c));
  if (!std::isfinite(*line.high))
  {
    line.note = zones_share_unevenly(band)
                    ? "the stretch gathers in the softest zone: push computes how far"
                    : "hardly hardens: the stretch gathers in a kink";
    if (line.verdict != Verdict::no)
      line.verdict = Verdict::close;
  }
  return line;
}
} // namespace

bool zones_share_unevenly(const ForceBand &band)
{
  return plate_yields_first(band) || band.softest_zone * even < 1;
}

ScreenSection screen_strain(const Case &c, const ForceBand &band)
{
  ScreenSection section{"Stretch", {nominal_line(c, band), outer_line(c, band)}};
  const auto    states = [](const ZoneFlow &zone)
  { return zone.elongation > 0 || zone.limit_strain > 0; };
  if (c.weld.has_metal() && states(c.weld.metal_flow))
    section.lines.push_back(zone_line(c, "weld metal", "weld", c.weld.metal_flow));
  if (c.weld.haz_width > 0 && states(c.weld.haz_flow))
    section.lines.push_back(zone_line(c, "HAZ", "haz", c.weld.haz_flow));
  return section;
}
} // namespace throughbend
