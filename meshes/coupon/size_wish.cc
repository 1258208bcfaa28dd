#include "meshes/coupon/size_wish.h"

#include "meshes/coupon/leg_reach.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double pi = 3.14159265358979323846;

/// Of the thickness: the longest cells of a leg that stays straight, and how far in from
/// its end a leg may catch on a frame.
constexpr double longest_cells   = 4;
constexpr double ends_that_catch = 10;

/// Of the cells of a straight leg [mm]: where they are longer than the arc that they slide
/// past, the arc's top falls between points of contact and the leg hops from one to the
/// next, in hundreds of short steps.
double longest_of(const Case &c)
{
  const Shoulders &shoulders = c.fixture.shoulders;
  const double     t         = c.coupon.thickness;
  const double     arc       = shoulders.kind == ShoulderKind::solid
                                   ? std::min(shoulders.radius, shoulders.bottom_radius)
                                   : shoulders.radius;
  return std::clamp(arc, t, longest_cells * t);
}
} // namespace

double SizeWish::at(double x) const
{
  const double distance = std::abs(x), tip_from = x < 0 ? left_tip : right_tip;
  // Sizes grow by a quarter of the distance walked, so neighbours stay alike.
  const double past   = std::max(0., distance - bend_reach);
  const double ahead  = std::max(0., tip_from - distance);
  const double before = std::max(0., ironed_from - distance);
  const double beyond = std::max(0., distance - ironed_to);
  const double off    = std::max(0., distance - far_from);
  const double aside  = std::abs(distance - corner_at);
  return std::min({bend + past / 4, std::max(leg, std::min(leg + off / 8, longest)),
                   tip + ahead / 4, ironed + std::max(before, beyond) / 4,
                   corner + aside / 4});
}

Level level_of(const MeshSettings &mesh)
{
  const bool body = mesh.dimension == 3;
  switch (mesh.level)
  {
  case MeshLevel::quick:
    return body ? Level{2, 1.5, 3, 2, 1} : Level{3, 1.5, 4, 4, 3};
  case MeshLevel::standard:
    return body ? Level{3, 1.5, 4, 3, 1} : Level{4, 1, 6, 6, 5};
  case MeshLevel::fine:
    return body ? Level{4, 1, 6, 4, 1} : Level{8, 0.5, 8, 12, 5};
  }
  return {4, 1, 6, 6, 5};
}

SizeWish size_wish(const Case &c, const double coarser)
{
  const double t = c.coupon.thickness, nose = c.fixture.plunger.nose_radius;
  const double factor = level_of(c.mesh).cells;
  SizeWish     wish;
  // A tenth of the radius that a face lies on keeps the force smooth; thinner slices than
  // an eighth of the thickness resolve nothing that the layers could follow.
  wish.bend  = std::clamp(0.1 * nose, t / 8, t / 4) * factor;
  wish.leg   = std::clamp(0.15 * c.fixture.shoulders.radius, t / 4, t / 2) * factor;
  wish.scale = factor;
  const double standard_bend = wish.bend;
  if (c.mesh.cell_size > 0)
  {
    wish.scale *= c.mesh.cell_size / wish.bend;
    wish.leg *= c.mesh.cell_size / wish.bend;
    wish.bend = c.mesh.cell_size;
  }
  if (leg_is_ironed(c))
  {
    // A quarter of the length over which the shoulder bites into a leg that is 3.5 % too
    // thick, sqrt(2 radius over). With cells of three times that length the force ripples
    // by 6 to 10 % as they pass the shoulder, with these by less than 2 %.
    wish.ironed = 0.07 * std::sqrt(c.fixture.shoulders.radius * t) * factor;
    if (c.mesh.cell_size > 0)
      wish.ironed *= wish.bend / standard_bend;
    wish.ironed      = std::min(coarser * wish.ironed, coarser > 1 ? wish.leg : wish.bend);
    wish.ironed_from = ironed_from(c) - t / 4;
    // Tight, but not too thick: only the curl beside the bend fills the room.
    if (thickest(c) <= room_beside_plunger(c))
      wish.ironed_to = ironed_to(c);
  }
  // A corner of the nose sharper than the bend's cells are long: a face must not ride on
  // it.
  if (nose < wish.bend && c.mesh.cell_size <= 0 && c.mesh.dimension == 2)
  {
    wish.corner    = std::max(0.7 * nose, t / 24 * factor) * coarser;
    wish.corner_at = c.fixture.plunger.width / 2 - nose / 2;
  }
  wish.leg        = std::max(wish.leg, wish.bend);
  wish.bend_reach = (c.fixture.plunger.width / 2 + t / 2) * pi / 2 + t;
  wish.far_from   = straight_from(c);
  // In 3D a face has few points, and a round must not sink in between them.
  wish.longest = c.mesh.dimension == 2
                     ? std::min(coarser * longest_of(c), longest_cells * t) * factor
                     : std::sqrt(c.fixture.shoulders.radius * t) / 2;
  if (c.fixture.frame.present() &&
      c.coupon.length / 2 + std::abs(c.coupon.offset) > c.fixture.frame.distance)
  {
    wish.tip =
        std::min(wish.leg, std::max(1.5 * c.fixture.frame.edge_radius, t / 8) * coarser) *
        factor;
    // What hangs on the frame's edge is the end of a leg; farther in it slides past.
    const double inside  = c.fixture.frame.distance - t;
    const double catches = c.coupon.length / 2 - ends_that_catch * t;
    wish.left_tip        = std::max(inside, catches - c.coupon.offset);
    wish.right_tip       = std::max(inside, catches + c.coupon.offset);
  }
  return wish;
}
} // namespace throughbend
