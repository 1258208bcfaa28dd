#pragma once
// Which tool is which, for forces, friction and reports. No geometry here.

#include <string>

namespace throughbend
{
/// Which tool a contact force belongs to. The frame's upper and lower edges count as one.
enum class ToolRole
{
  plunger,
  left_shoulder,
  right_shoulder,
  left_frame,
  right_frame
};
constexpr int n_tool_roles = 5;
std::string   to_text(ToolRole role); ///< "plunger", "left shoulder", ...
} // namespace throughbend
