#pragma once
// What stands in a text, for tests of pages, messages and evidence.

#include <string>

namespace throughbend
{
inline bool has(const std::string &text, const std::string &part)
{
  return text.find(part) != std::string::npos;
}

/// How often a part stands in a text.
inline std::size_t count(const std::string &text, const std::string &part)
{
  std::size_t n = 0;
  for (std::size_t at = text.find(part); at != std::string::npos;
       at             = text.find(part, at + 1))
    ++n;
  return n;
}
} // namespace throughbend
