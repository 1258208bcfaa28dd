#include "inputs/case/zone_flow.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace throughbend
{
namespace
{
// Plastic strains of a bend, from first yield on: curves may cross.
constexpr double bend_strains[] = {0, 0.02, 0.05, 0.1, 0.2, 0.4};

/// By more than a traverse of hardness would show.
bool differ(const FlowCurve &a, const FlowCurve &b)
{
  constexpr double alike = 0.03; // of the flow stress
  return std::any_of(std::begin(bend_strains), std::end(bend_strains),
                     [&](const double strain)
                     {
                       const double x = a.stress(strain), y = b.stress(strain);
                       return std::abs(x - y) > alike * std::min(x, y);
                     });
}
} // namespace

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

double zone_contrast(const Case &c)
{
  double most = 1;
  for (const double strain : bend_strains)
  {
    const ZoneStresses flow = zone_stresses(c, strain);
    most                    = std::max(most, flow.most / flow.least);
  }
  return most;
}

bool strength_jumps(const Case &c)
{
  const Weld &weld = c.weld;
  if (!weld.present() || weld.transition > 0)
    return false;
  const FlowCurve &plate = c.material.flow;
  if (weld.haz_width <= 0)
    return differ(zone_flow(c, weld.metal_flow, weld.strength_ratio), plate);
  return differ(zone_flow(c, weld.haz_flow, weld.haz_end_ratio()), plate) ||
         (weld.has_metal() && differ(zone_flow(c, weld.haz_flow, weld.haz_ratio),
                                     zone_flow(c, weld.metal_flow, weld.strength_ratio)));
}
} // namespace throughbend
