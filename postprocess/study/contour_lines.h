#pragma once
// Curves of equal value over a grid of known and unknown points, by marching squares.

#include "postprocess/study/drawing.h"

#include <vector>

namespace throughbend
{
/// Values at the crossings of columns and rows.
struct ContourField
{
  std::vector<double> x, y;   ///< of columns and rows, rising
  std::vector<double> values; ///< row by row; NaN where nothing is known
  /// Row by row. A curve runs between points of one group only; empty: all are one.
  std::vector<int> groups;
};

/// The curves at a level. A square with an unknown corner, or with corners of different
/// groups, has none. Where a square has its corners crosswise above and below, the mean of
/// the four decides which are joined.
std::vector<Points> contour_lines(const ContourField &field, double level);
} // namespace throughbend
