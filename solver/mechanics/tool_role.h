#pragma once
// Which tool is which, for forces, friction and reports. No geometry here.

#include <array>
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
constexpr int                                n_tool_roles   = 5;
constexpr std::array<ToolRole, n_tool_roles> all_tool_roles = {
    ToolRole::plunger, ToolRole::left_shoulder, ToolRole::right_shoulder,
    ToolRole::left_frame, ToolRole::right_frame};
constexpr bool is_frame(ToolRole role)
{
  return role == ToolRole::left_frame || role == ToolRole::right_frame;
}
std::string to_text(ToolRole role); ///< "plunger", "left shoulder", ...
} // namespace throughbend
