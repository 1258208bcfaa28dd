#pragma once
// surface.csv: strain, stress and contact pressure along both faces at the moments that
// matter. Of a model with width the columns are those of a plane one, along the mid-width,
// and behind them what lies beside each place: at the free edge, and where the strain is
// largest across the width. Small, so it is written whole each time; the fields between the
// faces are in the field files.

#include "solver/outcome/surface_row.h"

#include <filesystem>
#include <string>
#include <vector>

namespace throughbend
{
/// When the faces were looked at.
enum class Moment
{
  peak, ///< at the largest ram force so far
  end   ///< at the end of the push, still loaded
};
std::string to_text(Moment moment); ///< "peak", "end"
std::string to_text(Face face);     ///< "convex", "concave"

struct SurfaceShot
{
  Moment                  moment = Moment::peak;
  double                  travel = 0; ///< [mm]
  std::vector<SurfaceRow> rows;       ///< both faces
};

/// Writes the shots one below the other.
void write_surface_record(const std::filesystem::path    &file,
                          const std::vector<SurfaceShot> &shots);

/// Reads them back. Throws InputError when the file is not one of ours.
std::vector<SurfaceShot> read_surface_record(const std::filesystem::path &file);
} // namespace throughbend
