#pragma once
// The flow curves of a coupon's zones, as the case gives them: a curve of the zone's own,
// or the base plate's times a ratio. How one passes into the next is solver/setup's.

#include "inputs/case/case.h"

#include <string>
#include <vector>

namespace throughbend
{
/// Its own curve, or the plate's times a ratio.
FlowCurve zone_flow(const Case &c, const ZoneFlow &own, double ratio);

/// One curve of a coupon; `zone` as run folders number them: 0 base, 1 HAZ, 2 weld.
struct ZoneCurve
{
  int         zone = 0;
  std::string label;
  FlowCurve   curve;
};

/// Of the zones that the coupon has, base first. A HAZ whose strength changes across it has
/// two, one at each end.
std::vector<ZoneCurve> zone_curves(const Case &c);

/// Flow stress of the zone that is softest, and strongest, at a plastic strain [MPa].
struct ZoneStresses
{
  double least = 0, most = 0;
};
ZoneStresses zone_stresses(const Case &c, double strain);

/// Flow stress of the strongest zone over that of the softest, at the plastic strain where
/// they are farthest apart [-].
double zone_contrast(const Case &c);

/// Whether strength jumps where zones meet, because `weld.transition` is 0. Strain beside
/// the jump grows with every finer mesh, and no mesh tells how far: a HAZ of 0.8 of the
/// plate came to 59 % on standard and fine meshes, to 212 % with cells of 0.25 mm.
bool strength_jumps(const Case &c);
} // namespace throughbend
