#pragma once
// How long the cells along a coupon should be: small where it bends and touches, long where
// a leg stays straight. Cuts nothing and makes no mesh.

#include "inputs/case/case.h"

#include <limits>

namespace throughbend
{
/// Cell sizes asked for, as functions of the distance from the bend's centre.
struct SizeWish
{
  double bend = 0, leg = 0; ///< [mm]
  double tip        = std::numeric_limits<double>::infinity();
  double bend_reach = 0;              ///< half length of the stretch that bends [mm]
  double left_tip = 0, right_tip = 0; ///< distances from which the tip size holds [mm]
  double scale  = 1;                  ///< of the bend's cells over the standard ones [-]
  double ironed = std::numeric_limits<double>::infinity(); ///< where a leg is ironed [mm]
  double ironed_from = 0; ///< distance from which it may be [mm]
  double ironed_to   = std::numeric_limits<double>::infinity(); ///< and up to which [mm]
  double far_from    = 0; ///< distance from which a leg stays straight [mm]
  double longest     = 0; ///< of the cells there [mm]
  double corner      = std::numeric_limits<double>::infinity(); ///< at a sharp nose's [mm]
  double corner_at   = 0;                                       ///< distance of that [mm]

  double at(double x) const; ///< of the cell at a place along the flat coupon [mm]
};

/// `coarser`: how many times as long the fine cells are made [-].
SizeWish size_wish(const Case &c, double coarser);

/// What a level of the mesh means. A body of the standard level has a plane's quick cells:
/// on a plain coupon they are within 0.3 % of far finer ones in the largest force
/// (tests/benchmarks/TABLE.md). Welded bodies have no such series yet.
struct Level
{
  int    layers;           ///< through the thickness
  double cells;            ///< their length over that of a plane's standard mesh [-]
  int    layers_if_narrow; ///< where strength changes along the coupon
  int    layers_if_ironed; ///< where a leg is ironed: plane models only
  /// Of those layers: height of the innermost over that of the outermost [-].
  double inner_over_skin;
};

Level level_of(const MeshSettings &mesh);
} // namespace throughbend
