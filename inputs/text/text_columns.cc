#include "inputs/text/text_columns.h"

#include <algorithm>

namespace throughbend
{
std::string TextColumns::text() const
{
  std::vector<std::size_t> widths;
  for (const auto &row : rows_)
    for (std::size_t i = 0; i < row.size(); ++i)
    {
      if (i == widths.size())
        widths.push_back(0);
      widths[i] = std::max(widths[i], row[i].size());
    }
  std::string text;
  for (const auto &row : rows_)
  {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i)
      line += "  " + row[i] + std::string(widths[i] - row[i].size(), ' ');
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}
} // namespace throughbend
