#pragma once
// The tools in place at one travel as a VTK PolyData file (.vtp, ASCII), to be shown with
// the coupon's fields: filled outlines, in 3D bodies as wide as the modelled half. Needs no
// VTK to be written.

#include "solver/mechanics/rigid_tool.h"

#include <string>
#include <vector>

namespace throughbend
{
/// How the tools are to be drawn.
struct ToolDrawing
{
  double width      = 0;    ///< across, from z = 0; 0 = flat, for a plane model [mm]
  double plunger_up = 1e30; ///< the plunger is cut off this far above its nose [mm]
};

/// The text of a .vtp file. Cell data `tool` is the number of the ToolRole; it is not the
/// active one, so that a viewer that is told nothing shows the tools plain.
std::string tool_file_text(const std::vector<RigidTool> &tools, double travel,
                           const ToolDrawing &drawing);
} // namespace throughbend
