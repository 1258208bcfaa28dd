#include "solver/pass/pass_setup.h"

#include "meshes/fixture_profiles.h"
#include "solver/pass/force_scale.h"

namespace throughbend
{
std::vector<ZoneMaterial> zone_materials(const Case &c)
{
  const Material &base = c.material;
  const auto      zone = [&](double factor) -> ZoneMaterial
  {
    return {base.shear_modulus(), base.bulk_modulus(), base.flow.scaled(factor),
            base.kinematic.scaled(factor)};
  };
  return {zone(1), zone(c.weld.haz_ratio), zone(c.weld.strength_ratio)};
}

ContactStiffness contact_stiffness(const Case &c)
{
  // Stiff enough to keep penetration below the tolerance at the pressures of bending, soft
  // enough for Newton; raised during the pass where that does not hold.
  const double     t = c.coupon.thickness;
  ContactStiffness stiffness;
  stiffness.normal     = 2.2e-3 / c.solver.penetration_tolerance * c.material.young / t;
  stiffness.tangential = 0.5 * stiffness.normal;
  stiffness.onset      = contact_band(c);
  stiffness.band       = contact_band(c);
  return stiffness;
}

double largest_step(const Case &c)
{
  if (c.solver.largest_step > 0)
    return c.solver.largest_step;
  return (c.fixture.plunger.nose_radius + c.coupon.thickness) / 20;
}

NewtonSettings newton_settings(const Case &c, double whole_coupon_factor)
{
  NewtonSettings settings;
  settings.tolerance    = c.solver.residual_tolerance;
  settings.least_force  = 1e-2 * bending_force(c) / whole_coupon_factor;
  settings.largest_move = c.coupon.thickness / 2;
  return settings;
}
} // namespace throughbend
