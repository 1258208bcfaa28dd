#include "solver/pass/pass_setup.h"

#include "meshes/coupon_grading.h"
#include "meshes/coupon_mesh.h"
#include "meshes/fixture_profiles.h"
#include "solver/pass/force_scale.h"
#include "solver/pass/pass_tools.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
// Numbers of the materials in zone_materials().
constexpr int base = 0, haz_end = 1, metal = 2, haz_begin = 3;

StrengthMix mix_at(double from_fusion, const Weld &weld, const StrengthSteps &steps)
{
  struct Knot
  {
    double at;
    int    material;
  };
  std::vector<Knot> knots;
  if (weld.has_metal())
    knots.push_back({steps.weld_ends, metal});
  if (weld.haz_width > 0)
  {
    knots.push_back({steps.haz_begins, haz_begin});
    knots.push_back({steps.haz_ends, haz_end});
    knots.push_back({steps.base_begins, base});
  }
  else
    knots.push_back({steps.haz_begins, base});
  if (from_fusion <= knots.front().at)
    return {knots.front().material, knots.front().material, 0};
  for (std::size_t i = 0; i + 1 < knots.size(); ++i)
    if (from_fusion < knots[i + 1].at)
    {
      const double way = (from_fusion - knots[i].at) / (knots[i + 1].at - knots[i].at);
      const bool   within_haz =
          knots[i].material == haz_begin && knots[i + 1].material == haz_end;
      return {knots[i].material, knots[i + 1].material,
              within_haz ? way : way * way * (3 - 2 * way)};
    }
  return {base, base, 0};
}
} // namespace

std::vector<ZoneMaterial> zone_materials(const Case &c)
{
  const Material &plate = c.material;
  const Weld     &weld  = c.weld;
  const double    G = plate.shear_modulus(), K = plate.bulk_modulus();
  const auto      zone = [&](const ZoneFlow &own, double ratio) -> ZoneMaterial
  {
    if (own.own)
      return {G, K, own.curve, {}};
    return {G, K, plate.flow.scaled(ratio), plate.kinematic.scaled(ratio)};
  };
  return {zone({}, 1), zone(weld.haz_flow, weld.haz_end_ratio()),
          zone(weld.metal_flow, weld.strength_ratio), zone(weld.haz_flow, weld.haz_ratio)};
}

template <int dim>
std::vector<StrengthMix> strength_mixes(const Case &c, const CouponModel<dim> &model)
{
  const Weld &weld   = c.weld;
  const bool  graded = weld.haz_width > 0 && weld.haz_end_ratio() != weld.haz_ratio;
  if (!weld.present() || (weld.transition <= 0 && !graded) ||
      c.material.kinematic.present())
    return {};
  const CouponShape        shape = coupon_shape(c, model.extent());
  const StrengthSteps      steps = strength_steps(weld, plate_thickness(weld, c.coupon));
  std::vector<StrengthMix> mixes;
  for (const CellData<dim> &cell : model.cells())
    for (const dealii::Point<dim> &point : cell.position)
    {
      const Spot flat = shape.flattened(spot(point, model.level()));
      mixes.push_back(mix_at(shape.from_fusion(flat), weld, steps));
    }
  return mixes;
}
template std::vector<StrengthMix> strength_mixes(const Case &, const CouponModel<2> &);
template std::vector<StrengthMix> strength_mixes(const Case &, const CouponModel<3> &);

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
  // Farther than a coupon comes in one step; under the nose, than it lifts off in a bend.
  stiffness.reach      = std::max(2 * largest_step(c), 0.3 * t);
  stiffness.nose_reach = std::max(2 * t, c.fixture.plunger.nose_radius);
  return stiffness;
}

double largest_step(const Case &c)
{
  if (c.solver.largest_step > 0)
    return c.solver.largest_step;
  return (c.fixture.plunger.nose_radius + c.coupon.thickness) / 20;
}

double ironing_step(const Case &c, double travel)
{
  constexpr double of_a_cell = 0.25;
  const double     cell = ironed_cell(c), from = ironed_from(c);
  // The nose's centre passes the arcs' centres, and the narrowest place begins there.
  const double begins =
      touch_level(c) + c.fixture.plunger.nose_radius + c.fixture.shoulders.radius;
  const double ends = begins + c.coupon.length / 2 + std::abs(c.coupon.offset) - from;
  return std::isfinite(cell) && travel >= begins - cell && travel < ends
             ? of_a_cell * cell
             : std::numeric_limits<double>::infinity();
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
