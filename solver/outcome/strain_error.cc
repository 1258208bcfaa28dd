#include "solver/outcome/strain_error.h"

#include "inputs/case/zone_flow.h"
#include "inputs/units/nominal_strain.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
/// A cap or bead stands on the convex face.
bool stands_on_the_face(const Weld &weld)
{
  return (weld.bend == BendKind::face && weld.cap.height > 0) ||
         (weld.bend == BendKind::root && weld.root_bead.height > 0);
}

// Flow stress of the strongest over the softest zone, beyond which strain changes within a
// cell of the standard mesh.
constexpr double much_contrast = 1.2;

/// The largest log strain of the plate, and of zones that are much as strong, over the
/// nominal one [-]: the less a metal hardens, the more of the bend gathers in a kink under
/// the nose's first touch. Where zones differ, strain gathers in the softer one.
double kink_ratio(const Case &c, const KeyFigures &figures,
                  const std::vector<FaceFigures> &faces)
{
  const bool alike = zone_contrast(c) <= much_contrast;
  double     plate = c.weld.present() ? 0. : figures.outer_strain;
  for (const FaceFigures &face : faces)
    for (const ZoneFigures &zone : face.zones)
      if ((alike || is_base(zone.peak.zone)) && std::isfinite(zone.peak.strain))
        plate = std::max(plate, zone.peak.strain);
  return plate /
         std::log1p(nominal_strain(c.fixture.plunger.bend_diameter(), c.coupon.thickness));
}

// Of such a kink. Passes of one coupon on quick, standard and fine meshes: 4340 steel, 1.5
// times nominal, log strains of 0.43, 0.48, 0.43; S355, 1.4 times, 0.40, 0.46, 0.42;
// 6061-T6, 1.7 times, 0.47, 0.66, 0.49; perfectly plastic 0.55, 0.63, 0.68. Up to 1.3 times
// they agree to 2 %. The edges of a body, where it is stretched most, differ by more: 0.76
// and 0.52 of S690 on quick and standard meshes.
constexpr double kink = 1.3, sharp_kink = 1.6, sharp_kink_of_body = 1.35;

// By how much a largest strain may be too small [-]: of plain coupons
// tests/verify/figure_bands.md, rounded up, of bodies tests/verify/edge_series.md and a
// narrow one (0.224, 0.228, 0.230 on quick, standard and fine meshes); infinite where a
// kink is so sharp that meshes do not agree. Beside welds, where strain changes within a
// millimetre, the largest of a zone at its edge was up to 28 % too small on quick meshes
// (a soft HAZ of 1 mm), up to 11 % on standard ones (a strong weld beside it: log strain
// 0.209 and 0.232 on standard and fine meshes) and up to 5 % where zones are more alike,
// of those tried. At the toe of a cap it grows with the mesh: by 16 % of a standard one,
// by 21 % of a quick one to a fine one, and on.
double share_off(const Case &c, const double ratio)
{
  const bool body = c.mesh.dimension == 3;
  if (ratio > (body ? sharp_kink_of_body : sharp_kink) || strength_jumps(c))
    return std::numeric_limits<double>::infinity();
  const double plain = ratio > kink ? 0.15 : body ? 0.05 : 0.03;
  if (!c.weld.present())
    return plain;
  if (stands_on_the_face(c.weld))
    return 0.4;
  // A body's cells are those of the plane's next coarser level.
  const MeshLevel level = !body                             ? c.mesh.level
                          : c.mesh.level == MeshLevel::fine ? MeshLevel::standard
                                                            : MeshLevel::quick;
  switch (level)
  {
  case MeshLevel::quick:
    return 0.3;
  case MeshLevel::standard:
    return std::max(plain, zone_contrast(c) > much_contrast ? 0.12 : 0.06);
  case MeshLevel::fine:
    break;
  }
  return std::max(plain, 0.05);
}
} // namespace

StrainError strain_error(const Case &c, const KeyFigures &figures,
                         const std::vector<FaceFigures> &faces)
{
  const double ratio = kink_ratio(c, figures, faces);
  return {share_off(c, ratio),
          c.mesh.level != MeshLevel::fine && ratio <= kink && !stands_on_the_face(c.weld)};
}
} // namespace throughbend
