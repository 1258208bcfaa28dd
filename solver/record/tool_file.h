#pragma once
// The tools in place at one travel as a VTK PolyData file (.vtp, ASCII), to be shown with
// the coupon's fields: filled outlines, in 3D bodies as wide as the modelled half. Needs no
// VTK to be written.

#include "solver/mechanics/rigid_tool.h"

#include <string>
#include <vector>

namespace throughbend
{
/// All outlines of a tool at a travel [mm], each cut off where the tool is drawn to.
std::vector<std::vector<PlaneVector>> outlines_in_place(const RigidTool &tool,
                                                        double           travel);

/// The text of a .vtp file. `width` is that across, from z = 0; 0 = flat, for a plane model
/// [mm]. Cell data `tool` is the number in tool_list(); it is not the active one, so that a
/// viewer that is told nothing shows the tools plain.
std::string tool_file_text(const std::vector<RigidTool> &tools, double travel,
                           double width);
} // namespace throughbend
