#pragma once
// Curves of equal value over a grid of known and unknown points, by marching squares.

#include "postprocess/study/drawing.h"

#include <vector>

namespace throughbend
{
/// Values at the crossings of columns and rows.
struct ContourField
{
  /// A rectangle between columns and rows, whose corners' values count.
  struct Cell
  {
    std::size_t left = 0, below = 0, right = 0, above = 0;
  };

  std::vector<double> x, y;   ///< of columns and rows, rising
  std::vector<double> values; ///< row by row; NaN where nothing is known
  /// Row by row. A curve runs between points of one group only; empty: all are one.
  std::vector<int> groups;
  /// Empty: every square between neighbours.
  std::vector<Cell> cells;
};

/// The curves at a level. A cell with an unknown corner, or with corners of different
/// groups, has none. Where a cell has its corners crosswise above and below, the mean of
/// the four decides which are joined.
std::vector<Points> contour_lines(const ContourField &field, double level);
} // namespace throughbend
