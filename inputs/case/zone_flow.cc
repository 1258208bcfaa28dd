#include "inputs/case/zone_flow.h"

#include <algorithm>

namespace throughbend
{
FlowCurve zone_flow(const Case &c, const ZoneFlow &own, const double ratio)
{
  return own.own ? own.curve : c.material.flow.scaled(ratio);
}

std::vector<ZoneCurve> zone_curves(const Case &c)
{
  std::vector<ZoneCurve> curves = {{0, "base plate", c.material.flow}};
  const Weld            &weld   = c.weld;
  if (weld.haz_width > 0)
  {
    const bool graded = !weld.haz_flow.own && weld.haz_end_ratio() != weld.haz_ratio;
    curves.push_back({1, graded ? "HAZ, fusion line" : "HAZ",
                      zone_flow(c, weld.haz_flow, weld.haz_ratio)});
    if (graded)
      curves.push_back(
          {1, "HAZ, outer end", zone_flow(c, weld.haz_flow, weld.haz_end_ratio())});
  }
  if (weld.has_metal())
    curves.push_back({2, "weld metal", zone_flow(c, weld.metal_flow, weld.strength_ratio)});
  return curves;
}

ZoneStresses zone_stresses(const Case &c, const double strain)
{
  const double plate = c.material.flow.stress(strain);
  ZoneStresses found{plate, plate};
  for (const ZoneCurve &zone : zone_curves(c))
  {
    const double stress = zone.curve.stress(strain);
    found               = {std::min(found.least, stress), std::max(found.most, stress)};
  }
  return found;
}

bool strength_jumps(const Case &c)
{
  constexpr double alike = 0.03, strain = 0.1; // of the flow stress; at which strain
  if (!c.weld.present() || c.weld.transition > 0)
    return false;
  const ZoneStresses flow = zone_stresses(c, strain);
  return flow.most > (1 + alike) * flow.least;
}
} // namespace throughbend
