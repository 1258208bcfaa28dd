#pragma once
// What is known after one accepted step, in plain numbers: one row of travel.csv. Forces
// and energies are those of the whole coupon at its real width, also when a half or a plane
// model was computed. No mesh types here, so that findings and records need none.

#include "solver/mechanics/tool_list.h"

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// How the step came about.
enum class StepKind
{
  push,   ///< the plunger moved down, quasi-static
  relax,  ///< tools held while the coupon went to its next equilibrium (a jump)
  release ///< tools taken away
};
std::string to_text(StepKind kind); ///< "push", "relax", "release"

/// Force of a tool on the coupon, and how closely they touch.
struct ToolContact
{
  ToolPlace place; ///< which tool

  double force_x  = 0; ///< along the coupon [N]
  double force_y  = 0; ///< up [N]
  double normal   = 0; ///< sum of pressures times area [N]
  double slipping = 0; ///< share of the normal force at points that slip [-]
  double pressure = 0; ///< largest contact pressure at any point, a spike [MPa]

  // Of the patch that carries the most, and smoothed: see solver/fem/contact_patch.
  double line_load      = 0; ///< force of that patch per mm of the coupon's width [N/mm]
  double patch_length   = 0; ///< of that patch along the coupon [mm]
  double patch_pressure = 0; ///< line load / patch length [MPa]
  /// Largest mean pressure over a length of a quarter of the coupon's thickness [MPa].
  double smoothed_pressure = 0;

  double from_below = 0; ///< part of `normal` where the outline faces down by 45 deg [N]
  /// Longest face that touches a rounded part of the outline, over its radius [-].
  double face_over_radius = 0;
};

/// Work done and energy held since first touch [N mm], whole coupon.
struct EnergyBalance
{
  double ram_work       = 0; ///< plunger force times travel
  double elastic        = 0; ///< stored in the coupon
  double plastic        = 0; ///< dissipated by plastic flow
  double friction       = 0; ///< dissipated by sliding on the tools
  double contact        = 0; ///< held by springs of contact, lips too (a numerical share)
  double regularisation = 0; ///< taken by the term that holds a free coupon (numerical)
  double released       = 0; ///< let go in jumps: what would become motion

  /// |ram work - all of the others| / largest ram work so far [-], but at least the work of
  /// forming the hinge: the plastic bending force along a hundredth of the thickness.
  double error = 0;
};

/// One end of the coupon, or one leg.
struct Leg
{
  double angle = 0; ///< leg's mid-line against the horizontal [deg]; 90 = vertical
  double tip_x = 0; ///< outermost corner of the end [mm], x from the plunger's centre
  double tip_y =
      0; ///< the end's corner on the convex face [mm], y from the shoulders' tops
};

/// The two lips of one flaw.
struct FlawGap
{
  double opening = 0; ///< at its mouth on the convex face, else where it is widest [mm]
  double overlap = 0; ///< deepest that one lip has run into the other [mm]
};

/// What only a model with width shows. At the crown means: where the coupon is nearest to
/// the plunger's centre line.
struct WidthShape
{
  /// Largest gap between nose and concave face between the outermost touching places, along
  /// the mid-width, where a wire or gauge is pushed in, and along the free edge. The edge's
  /// is the crown's own gap and the curl of the edge together. [mm]
  double nose_gap_middle = 0, nose_gap_edge = 0;
  /// How far the free edge stands beyond the mid-width at the crown, away from the centre
  /// of the bend, on either face [mm].
  double convex_curl = 0, concave_curl = 0;
  double convex_width = 0, concave_width = 0; ///< of the coupon at the crown [mm]

  // Axial log strain of the convex face; `at` along the flat coupon from its centre.
  double edge_strain = 0, edge_strain_at = 0;       ///< largest along the free edge
  double largest_strain = 0, largest_strain_at = 0; ///< largest anywhere on the face
  double largest_strain_across = 0;                 ///< where, from the mid-width [mm]

  /// Stress across the width at the crown, on the convex face at mid-width [MPa]. While the
  /// nose bears on the crown it bends the width, too, and holds it plastic: tension. Once
  /// the crown lifts off the nose the width springs back and overshoots at the surface:
  /// compression. So it needs to be told together with the next.
  double crown_width_stress = 0;
  bool   crown_on_nose      = false; ///< the nose presses on the crown at mid-width
};

std::vector<ToolContact> untouched_tools(); ///< one for each of tool_list()

struct PassSample
{
  int                      step      = 0;
  StepKind                 kind      = StepKind::push;
  double                   travel    = 0; ///< of the plunger from first touch [mm]
  double                   ram_force = 0; ///< the plunger presses down with [N]
  std::vector<ToolContact> tools     = untouched_tools(); ///< one for each of tool_list()
  EnergyBalance            energy;
  Leg                      left, right; ///< a half model mirrors the right leg
  double crown_strain    = 0; ///< axial log strain, convex face under the plunger [-]
  double outer_strain    = 0; ///< largest axial log strain on the convex face [-]
  double outer_strain_at = 0; ///< where, along the flat coupon from its centre [mm]
  /// Largest equivalent plastic strain of the convex face, carried on to the face itself
  /// from the points inside the cells: the same on every mesh [-].
  double plastic_strain = 0;
  /// Largest gap between nose and coupon in the bend, in 3D anywhere across the width [mm].
  double nose_gap = 0;
  double wrap     = 0; ///< angle over which the coupon touches the nose [deg]
  double walk     = 0; ///< sideways motion of the coupon's middle [mm]
  /// Turn of the coupon's mid-line under the plunger, counter-clockwise [deg].
  double tilt        = 0;
  double penetration = 0; ///< deepest contact point [mm]
  /// |sum of tool forces| / largest of them [-]; a hundredth of the plastic bending force
  /// is the least measure, so that a free coupon shows no error made of rounding.
  double               equilibrium_error = 0;
  int                  iterations        = 0; ///< Newton iterations of this step
  int                  refusals          = 0; ///< smaller attempts refused before this one
  std::vector<FlawGap> flaws; ///< of each flaw, in their order; not in travel.csv
  /// Largest equivalent plastic strain at any point where it is computed: inside the cells,
  /// nearer to the face the finer the mesh, and at a flaw's tips without a limit [-].
  double point_plastic_strain = 0;
  /// Largest equivalent plastic strain of the concave face, on the face itself. The finer
  /// the mesh, the more of the mark shows that the nose's first line of contact leaves [-].
  double                    concave_plastic_strain = 0;
  std::optional<WidthShape> width; ///< 3D only
  /// Smooth course of the ram force [N] and the ripple about it [-]: see force_course.
  /// Known when the pass has ended, NaN before.
  double smooth_force = std::numeric_limits<double>::quiet_NaN();
  double ripple       = std::numeric_limits<double>::quiet_NaN();

  const ToolContact &tool(ToolPlace place) const { return tools[tool_number(place)]; }
  ToolContact       &tool(ToolPlace place) { return tools[tool_number(place)]; }
};
} // namespace throughbend
