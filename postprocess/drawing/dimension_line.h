#pragma once
// Dimension lines with arrows, and leaders, with a length in the reader's units over the
// line and in the other family in brackets under it. Where a text finds no room between its
// arrows it goes beside them. Does not look for free room: the caller says where the line
// runs.

#include "inputs/units/units.h"
#include "postprocess/drawing/svg.h"
#include "postprocess/words/size_limits.h"

#include <string>
#include <vector>

namespace throughbend
{
/// What stands on a dimension line.
struct DimensionText
{
  std::string             letter;      ///< by which the table names it; may be empty
  double                  value  = 0;  ///< the true length [mm]
  std::string             prefix = {}; ///< "R" of a radius, "2 x " of two halves
  UnitSystem              first  = UnitSystem::metric; ///< family over the line
  std::vector<SizeLimits> limits = {};                 ///< none, or one

  std::string over() const;  ///< "A 38.1 mm", or "A 1-1/2 in", with its tolerance
  std::string under() const; ///< "[1-1/2 in]", or "[38.1 mm]"
  double      width() const; ///< of the wider one [mm]
  std::string in(UnitSystem units) const; ///< the length alone, with its tolerance
};

/// What was drawn, for whoever wants to measure it.
struct DrawnDimension
{
  DimensionText text;
  PlaneVector   from, to;  ///< its ends on the sheet [mm]
  double        scale = 1; ///< of its view
};

enum class Beside
{
  before, ///< left of the line
  after   ///< right of it
};

/// Along x. Extension lines come from height `edge`.
struct LevelDimension
{
  double from = 0, to = 0; ///< x, from < to
  double line     = 0;     ///< y of the dimension line
  double edge     = 0;     ///< y of what is measured
  double clear_of = -1e30; ///< a text beside its arrows starts right of this x
};

/// Along y, its text always beside it.
struct UprightDimension
{
  double from = 0, to = 0;           ///< y, from < to: upper and lower end
  double line      = 0;              ///< x of the dimension line
  double edge_from = 0, edge_to = 0; ///< x of what is measured, at both ends
  Beside side = Beside::before;
};

/// An arrow to a point, a slanting line to the knee, and a level one under the text.
struct Leader
{
  PlaneVector tip, knee;
  Beside      side     = Beside::after;
  double      clear_of = 0; ///< text starts that far beyond the knee [mm]
};

void draw(Sheet &sheet, const LevelDimension &dimension, const DimensionText &text);
void draw(Sheet &sheet, const UprightDimension &dimension, const DimensionText &text);
void draw(Sheet &sheet, const Leader &leader, const DimensionText &text);

constexpr double over_line  = 3.6; ///< a text needs so much above its line [mm]
constexpr double under_line = 4.6; ///< and so much below
} // namespace throughbend
