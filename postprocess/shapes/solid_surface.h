#pragma once
// The outer faces of a body with width, taken from the cells of one of its shapes: what a
// turning view shows. Planes of symmetry, where the model was cut, are no outer faces.

#include "postprocess/shapes/shape_file.h"

#include <array>
#include <vector>

namespace throughbend
{
struct SolidSurface
{
  std::vector<std::size_t>        kept;  ///< points of the file, in the order of the others
  std::vector<std::array<int, 4>> faces; ///< around
  std::vector<std::array<int, 2>> edges; ///< of the elements, and borders of zones

  bool empty() const { return faces.empty(); }
};

/// Whether the model ends in the plane x = 0, where its mirror image begins.
enum class CutAtMiddle
{
  no,
  yes
};

/// Of hexahedra; empty for a plane mesh. `moved` has three components of each point [mm],
/// `zone` and `lip` one; `lip` may be empty. Width is counted from the middle plane z = 0.
SolidSurface solid_surface(const ShapeFile &grid, const std::vector<double> &moved,
                           const std::vector<double> &zone, const std::vector<double> &lip,
                           CutAtMiddle cut);
} // namespace throughbend
