#pragma once
// The tools of a bench by name: what each is for, and on which side it stands. Everything
// above asks for a duty and a side, or goes through the list; what a tool looks like is
// told by its outlines (RigidTool).

#include <array>
#include <cstddef>
#include <string>
#include <vector>

namespace throughbend
{
/// What a tool is for.
enum class ToolDuty
{
  push,   ///< goes down with the ram
  carry,  ///< the coupon lies on it and is drawn over it
  enclose ///< stands around; a coupon of a fitting length never presses on it
};

enum class ToolSide
{
  middle,
  left,
  right
};

/// Where a tool is found; no two tools have the same one.
struct ToolPlace
{
  ToolDuty duty = ToolDuty::push;
  ToolSide side = ToolSide::middle;
};
constexpr bool operator==(ToolPlace a, ToolPlace b)
{
  return a.duty == b.duty && a.side == b.side;
}
constexpr bool operator!=(ToolPlace a, ToolPlace b)
{
  return !(a == b);
}

/// Short for the places of today's tools.
namespace tool_at
{
constexpr ToolPlace plunger{ToolDuty::push, ToolSide::middle};
constexpr ToolPlace left_shoulder{ToolDuty::carry, ToolSide::left};
constexpr ToolPlace right_shoulder{ToolDuty::carry, ToolSide::right};
constexpr ToolPlace left_frame{ToolDuty::enclose, ToolSide::left};
constexpr ToolPlace right_frame{ToolDuty::enclose, ToolSide::right};
} // namespace tool_at

/// A row of the list.
struct ToolName
{
  ToolPlace   place;
  std::string name; ///< as in reports and heads of columns
};

/// All tools that a bench may have, in the order of records; a fixture without a frame has
/// it here, too, and it touches nothing. The place in the list is the tool's number.
const std::vector<ToolName> &tool_list();

/// Its number. Throws std::logic_error when the list has no such tool.
std::size_t tool_number(ToolPlace place);

const std::string &tool_name(ToolPlace place); ///< throws as tool_number() does

/// The same tool on the other side; of one in the middle itself.
ToolPlace opposite(ToolPlace place);
} // namespace throughbend
