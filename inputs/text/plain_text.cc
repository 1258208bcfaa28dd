#include "inputs/text/plain_text.h"

#include <algorithm>
#include <sstream>

namespace throughbend
{
std::string_view trimmed(std::string_view text)
{
  constexpr std::string_view blanks = " \t\r\n\f";
  const std::size_t          first  = text.find_first_not_of(blanks);
  if (first == std::string_view::npos)
    return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

std::string lower_case(std::string_view text)
{
  std::string result(text);
  for (char &c : result)
    if (c >= 'A' && c <= 'Z')
      c = static_cast<char>(c - 'A' + 'a');
  return result;
}

std::string clipped(std::string_view text, std::size_t bytes)
{
  if (text.size() <= bytes)
    return std::string(text);
  std::size_t end = bytes;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0u) == 0x80u)
    --end;
  return std::string(text.substr(0, end)) + "...";
}

std::size_t utf8_length(std::string_view text, std::size_t at)
{
  const auto byte = [&](std::size_t i) -> unsigned
  { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u; };
  const unsigned first  = byte(at);
  std::size_t    length = 0;
  unsigned       low    = 0x80;
  unsigned       high   = 0xBF;
  if (first < 0x80)
    return 1;
  if (first >= 0xC2 && first <= 0xDF)
    length = 2;
  else if (first >= 0xE0 && first <= 0xEF)
  {
    length = 3;
    low    = first == 0xE0 ? 0xA0 : 0x80;
    high   = first == 0xED ? 0x9F : 0xBF;
  }
  else if (first >= 0xF0 && first <= 0xF4)
  {
    length = 4;
    low    = first == 0xF0 ? 0x90 : 0x80;
    high   = first == 0xF4 ? 0x8F : 0xBF;
  }
  if (length == 0 || byte(at + 1) < low || byte(at + 1) > high)
    return 0;
  for (std::size_t i = 2; i < length; ++i)
    if (byte(at + i) < 0x80 || byte(at + i) > 0xBF)
      return 0;
  return length;
}

std::optional<std::size_t> find_binary_byte(std::string_view text)
{
  for (std::size_t at = 0; at < text.size();)
  {
    const auto        byte   = static_cast<unsigned char>(text[at]);
    const bool        layout = byte == '\t' || byte == '\n' || byte == '\r' || byte == '\f';
    const std::size_t length = utf8_length(text, at);
    if ((byte < 0x20 && !layout) || byte == 0x7F || length == 0)
      return at;
    at += length;
  }
  return std::nullopt;
}

std::size_t edit_distance(std::string_view from, std::string_view to)
{
  const std::size_t                     columns = to.size() + 1;
  std::vector<std::vector<std::size_t>> cost(from.size() + 1,
                                             std::vector<std::size_t>(columns));
  for (std::size_t i = 0; i <= from.size(); ++i)
    for (std::size_t j = 0; j <= to.size(); ++j)
    {
      if (i == 0 || j == 0)
      {
        cost[i][j] = i + j;
        continue;
      }
      const std::size_t replaced = from[i - 1] == to[j - 1] ? 0u : 1u;
      cost[i][j] =
          std::min({cost[i - 1][j] + 1, cost[i][j - 1] + 1, cost[i - 1][j - 1] + replaced});
      if (i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1])
        cost[i][j] = std::min(cost[i][j], cost[i - 2][j - 2] + 1);
    }
  return cost[from.size()][to.size()];
}

std::optional<std::string> nearest_name(std::string_view                text,
                                        const std::vector<std::string> &names)
{
  // A long line of junk has no neighbours, and the distance costs length squared.
  if (text.size() > 100)
    return std::nullopt;
  std::optional<std::string> nearest;
  std::size_t                least = std::max<std::size_t>(2, text.size() / 3) + 1;
  for (const std::string &name : names)
  {
    const std::size_t distance = edit_distance(lower_case(text), lower_case(name));
    if (distance < least)
    {
      least   = distance;
      nearest = name;
    }
  }
  return nearest;
}

std::string wrapped(std::string_view text, std::string_view prefix, std::size_t columns)
{
  std::istringstream words{std::string(text)};
  std::string        result;
  std::string        line;
  for (std::string word; words >> word;)
  {
    if (!line.empty() && prefix.size() + line.size() + 1 + word.size() > columns)
    {
      result += std::string(prefix) + line + "\n";
      line.clear();
    }
    line += (line.empty() ? "" : " ") + word;
  }
  if (!line.empty())
    result += std::string(prefix) + line + "\n";
  return result;
}
} // namespace throughbend
