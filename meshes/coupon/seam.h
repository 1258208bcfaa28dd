#pragma once
// Where the mesh is cut along a flaw: which heights of a mesh line are two lips, and how
// far apart those stand before the bend. Cuts nothing itself; flaws of no width begin
// closed.

#include "inputs/case/flaw.h"

#include <cstddef>

namespace throughbend
{
/// A flaw on the straight grid: a piece of a mesh line along which the cells on either side
/// do not hang together.
struct Seam
{
  std::size_t flaw  = 0;  ///< its number in Flaws
  std::size_t line  = 0;  ///< its place in CouponShape::lines
  double      grid  = 0;  ///< place of that line on the straight grid [mm]
  FlawSpan    span  = {}; ///< heights of its edges [mm]
  double      width = 0;  ///< gap between the lips before the bend [mm]
  double      plate = 0;  ///< thickness of the plate [mm]
  double      cell  = 0;  ///< wished size of cells at its tips [mm]

  bool opens_below() const { return span.low <= 0; }
  bool opens_above() const { return span.high >= plate; }

  /// Whether the nodes at a height are two: between the tips, and at a face.
  bool parts(double height) const;
  /// How far each lip stands off the line there, closing in a half round at a tip [mm].
  double half_gap(double height) const;
};
} // namespace throughbend
