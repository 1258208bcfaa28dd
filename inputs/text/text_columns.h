#pragma once
// Rows of words set in columns for the terminal, two blanks in front and between. No
// wrapping, no numbers of its own.

#include <string>
#include <vector>

namespace throughbend
{
class TextColumns
{
public:
  explicit TextColumns(const std::vector<std::string> &heads) { rows_.push_back(heads); }

  void        add(const std::vector<std::string> &cells) { rows_.push_back(cells); }
  std::string text() const;

private:
  std::vector<std::vector<std::string>> rows_;
};
} // namespace throughbend
