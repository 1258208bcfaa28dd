#pragma once
// From the shop's dimensions to the outlines that the coupon touches, and to the few
// heights that say when a coupon is in or out. The plane's origin lies on the plunger's
// centre line at the level of the shoulders' tops; the plunger is drawn where it first
// touches.

#include "inputs/case/case.h"
#include "meshes/tools/tool_shape.h"

#include <vector>

namespace throughbend
{
enum class Side
{
  left,
  right
};

/// Plunger with its nose at height `touch` [mm]; tall enough for any travel up to `reach`
/// [mm].
RigidProfile plunger_profile(const Plunger &plunger, double touch, double reach);

/// One solid shoulder or one roller. A solid block reaches outward half a radius past its
/// arc or to the frame, whichever is nearer.
RigidProfile shoulder_profile(const Fixture &fixture, Side side);

/// One side plate: the part above the opening and the part below it.
/// `coupon_thickness` [mm] sets the opening, which clears the flat coupon.
std::vector<RigidProfile> frame_profiles(const Frame &frame, double coupon_thickness,
                                         Side side);

/// The same tools whole, with their gauge lengths. A new shape of a tool is made here.
ToolShape plunger_shape(const Plunger &plunger, double touch, double reach);
ToolShape shoulder_shape(const Fixture &fixture, Side side);
ToolShape frame_shape(const Frame &frame, double coupon_thickness, Side side);

/// Height of the flat coupon's lower face when it first lies on the shoulders [mm]: 0 when
/// both ends reach over the tops; below 0 when a short one hangs by its lower corners on
/// the arcs (then the side that reaches further decides, so that nothing overlaps).
double resting_height(const Case &c);

/// Distance from the tools' outlines within which contact acts [mm]: the penetration that
/// the case tolerates.
double contact_band(const Case &c);

/// Where the coupon's convex face lies at travel 0 [mm]: resting, and clear of the
/// shoulders by the contact band, so that nothing presses before the first step.
double coupon_level(const Case &c);

/// How much higher than on a flat coupon the plunger first touches: by a cap or the thick
/// side of a taper [mm].
double rise_under_plunger(const Case &c);

/// Height of the plunger's nose at travel 0 [mm]: on the upper face of the resting coupon,
/// clear of it by the contact band.
double touch_level(const Case &c);

/// Level below which nothing touches a shoulder that is as wide as the opening [mm, < 0]:
/// the last point with a vertical tangent, i.e. the upper end of the bottom fillet, or a
/// roller's centre.
double last_tangent_level(const Shoulders &shoulders);

/// Lower end of the shoulder's arc, where wall or roller face stand vertical [mm, < 0].
double arc_end_level(const Shoulders &shoulders);
} // namespace throughbend
