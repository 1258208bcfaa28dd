#pragma once
// A sheet as a CAD file: ASCII DXF of release 12 with LINE, ARC, CIRCLE and TEXT on named
// layers, by the published group codes (Autodesk, DXF reference for AutoCAD R12, group
// codes and table entries). It is the same sheet as the SVG, blown up so that the section
// has the part's own size.

#include "inputs/units/units.h"
#include "postprocess/drawing/svg.h"

#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
/// How a sheet lies in the plane of the CAD file.
struct CadPlace
{
  PlaneVector origin;                     ///< on the sheet [mm], where the file has 0, 0
  double      scale = 1;                  ///< paper / world
  UnitSystem  units = UnitSystem::metric; ///< 1 unit of the file: 1 mm, or 1 inch
};

/// The name that a layer has in the file: PLUNGER.
std::string_view cad_name(Layer layer);

/// A text of one line, as TEXT takes it: ASCII, what is not as \U+00E4.
std::string cad_text(std::string_view words);

/// The file. `comment` stands in its first lines, where a reader of the file finds it.
std::string dxf(const Sheet &sheet, const CadPlace &place, std::string_view comment);
} // namespace throughbend
