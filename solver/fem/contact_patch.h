#pragma once
// How hard a tool presses, told so that no single contact point decides: along the coupon's
// face the pressure is taken together over the patch that touches, and averaged over a
// stated length. The largest pressure at a point goes up and down with the faces' size and
// with the points that happen to touch; force per patch does not.

#include "solver/fem/contact_assembly.h"

namespace throughbend
{
/// Of one tool. Per undeformed area and length, as all contact figures are.
struct PatchFigures
{
  /// Of the patch that carries the most: force per mm of the coupon's width [N/mm].
  double line_load = 0;
  double length    = 0; ///< of that patch along the coupon [mm]
  double pressure  = 0; ///< line load / length: in Hertz's line contact pi/4 of its peak
  /// Largest mean over the stated length, wherever it lies [MPa].
  double smoothed = 0;
};

/// Places that touch belong to one patch unless more than `length` [mm] lies between them;
/// a patch that a half model cuts is whole again. In 3D the largest of all the strips of
/// cells that run along the coupon, each a mean over its width: where a narrow patch runs
/// obliquely to the cells, its load falls on some lines of points and misses the next.
/// `length` is the one that `smoothed` averages over.
/// One row for each tool of tool_list().
template <int dim>
std::vector<PatchFigures> contact_patches(const CouponModel<dim>     &model,
                                          const ContactAssembly<dim> &contact,
                                          double                      length);
} // namespace throughbend
