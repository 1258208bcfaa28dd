#include "meshes/setup/placed_coupon.h"

#include "meshes/coupon/leg_reach.h"
#include "meshes/setup/fixture_profiles.h"

#include <algorithm>

namespace throughbend
{
PlacedCoupon::PlacedCoupon(const Case &c, const Extent modelled)
    : Coupon(c.coupon), dimension(c.mesh.dimension), cells(c.mesh.level), extent(modelled),
      level(coupon_level(c)), touch(touch_level(c)),
      // mm^3 = 1e-9 m^3
      mass(c.material.density * length *
           (width * thickness - (dimension == 3 ? section_lost(c.coupon) : 0.)) * 1e-9),
      over_weld(thickness + c.weld.cap.height + c.weld.root_bead.height),
      shape(coupon_shape(c, modelled)), grid(coupon_grid(c, modelled)),
      edges(c.coupon, grid),
      bilinear_dilatation(shape.has_narrow_cells() || leg_is_ironed(c))
{
}

double PlacedCoupon::plate_thickness(const double x) const
{
  return thickness + taper * std::clamp((x - offset) / length, -0.5, 0.5);
}

PlacedCoupon placed_coupon(const Case &c)
{
  return {c, model_extent(c)};
}
} // namespace throughbend
