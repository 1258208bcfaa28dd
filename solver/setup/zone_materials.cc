#include "solver/setup/zone_materials.h"

#include "inputs/case/zone_flow.h"
#include "meshes/coupon/coupon_shape.h"

namespace throughbend
{
namespace
{
// Numbers of the materials in zone_materials().
constexpr int base = 0, haz_end = 1, metal = 2, haz_begin = 3;
} // namespace

std::vector<ZoneMaterial> zone_materials(const Case &c)
{
  const Material &plate = c.material;
  const Weld     &weld  = c.weld;
  const double    G = plate.shear_modulus(), K = plate.bulk_modulus();
  const auto      zone = [&](const ZoneFlow &own, double ratio) -> ZoneMaterial
  {
    const KinematicHardening back =
        own.own ? KinematicHardening{} : plate.kinematic.scaled(ratio);
    return {G, K, zone_flow(c, own, ratio), back};
  };
  return {zone({}, 1), zone(weld.haz_flow, weld.haz_end_ratio()),
          zone(weld.metal_flow, weld.strength_ratio), zone(weld.haz_flow, weld.haz_ratio)};
}

ZoneMixing::ZoneMixing(const Case &c)
{
  const Weld &weld   = c.weld;
  const bool  graded = weld.haz_width > 0 && weld.haz_end_ratio() != weld.haz_ratio;
  if (!weld.present() || (weld.transition <= 0 && !graded))
    return;
  const StrengthSteps steps = strength_steps(weld, plate_thickness(weld, c.coupon));
  if (weld.has_metal())
    knots_.push_back({steps.weld_ends, metal});
  if (weld.haz_width > 0)
  {
    knots_.push_back({steps.haz_begins, haz_begin});
    knots_.push_back({steps.haz_ends, haz_end});
    knots_.push_back({steps.base_begins, base});
  }
  else
    knots_.push_back({steps.haz_begins, base});
}

StrengthMix ZoneMixing::at(const double from_fusion) const
{
  if (from_fusion <= knots_.front().at)
    return {knots_.front().material, knots_.front().material, 0};
  for (std::size_t i = 0; i + 1 < knots_.size(); ++i)
    if (from_fusion < knots_[i + 1].at)
    {
      const double way = (from_fusion - knots_[i].at) / (knots_[i + 1].at - knots_[i].at);
      const bool   within_haz =
          knots_[i].material == haz_begin && knots_[i + 1].material == haz_end;
      return {knots_[i].material, knots_[i + 1].material,
              within_haz ? way : way * way * (3 - 2 * way)};
    }
  return {base, base, 0};
}
} // namespace throughbend
