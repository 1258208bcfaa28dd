#include "solver/record/shape_parts.h"

namespace throughbend
{
namespace
{
const std::string mark = "_part", ending = ".vtu";
}

std::string part_file(const std::string &shape, const int rank)
{
  return shape + mark + std::to_string(rank) + ending;
}

std::string shape_of_part(const std::string &file)
{
  if (file.size() < ending.size() ||
      file.compare(file.size() - ending.size(), ending.size(), ending) != 0)
    return "";
  const std::size_t at = file.rfind(mark);
  if (at == std::string::npos)
    return "";
  const std::size_t from   = at + mark.size();
  const std::string number = file.substr(from, file.size() - ending.size() - from);
  return number.empty() || number.find_first_not_of("0123456789") != std::string::npos
             ? ""
             : file.substr(0, at) + ".pvtu";
}
} // namespace throughbend
