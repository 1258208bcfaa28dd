#include "solver/mechanics/tool_list.h"

#include <stdexcept>

namespace throughbend
{
const std::vector<ToolName> &tool_list()
{
  static const std::vector<ToolName> list = {{tool_at::plunger, "plunger"},
                                             {tool_at::left_shoulder, "left shoulder"},
                                             {tool_at::right_shoulder, "right shoulder"},
                                             {tool_at::left_frame, "left frame"},
                                             {tool_at::right_frame, "right frame"}};
  return list;
}

std::size_t tool_number(const ToolPlace place)
{
  const std::vector<ToolName> &list = tool_list();
  for (std::size_t i = 0; i < list.size(); ++i)
    if (list[i].place == place)
      return i;
  throw std::logic_error("no tool of the list has that duty on that side");
}

const std::string &tool_name(const ToolPlace place)
{
  return tool_list()[tool_number(place)].name;
}

ToolPlace opposite(const ToolPlace place)
{
  return {place.duty, place.side == ToolSide::left    ? ToolSide::right
                      : place.side == ToolSide::right ? ToolSide::left
                                                      : ToolSide::middle};
}
} // namespace throughbend
