#pragma once
// The block at the bottom right of a drawing: title, kind, rule, scale with a bar to
// measure a print by, units, caution, program and date. Holds only what it is given.

#include "inputs/units/units.h"
#include "postprocess/drawing/svg.h"

#include <string>

namespace throughbend
{
struct TitleBlock
{
  std::string title;
  std::string rule; ///< by which the sizes were chosen, in few words
  std::string paper;
  std::string scales;    ///< "1:2, detail 5:1"
  double      scale = 1; ///< paper / world, of the scale bar
  UnitSystem  units = UnitSystem::metric;
  std::string program;
  std::string date; ///< 2026-11-27; empty: left out

  /// The round length that the bar stands for, and that on paper [mm].
  struct Bar
  {
    double world = 0, paper = 0;
  };
  Bar bar() const;
};

constexpr double title_height = 43; ///< [mm]

/// Fills the box, which is that high.
void draw(Sheet &sheet, const Box &box, const TitleBlock &block);
} // namespace throughbend
