#include "inputs/text/shown_text.h"

#include "inputs/text/plain_text.h"

#include <fmt/core.h>

#include <algorithm>
#include <cstdint>

namespace throughbend
{
namespace
{
enum class Lines
{
  one,
  several
};

std::uint32_t code_point(const std::string_view character)
{
  const auto byte = [&](const std::size_t i)
  { return static_cast<std::uint32_t>(static_cast<unsigned char>(character[i])); };
  switch (character.size())
  {
  case 1:
    return byte(0);
  case 2:
    return (byte(0) & 0x1Fu) << 6 | (byte(1) & 0x3Fu);
  case 3:
    return (byte(0) & 0x0Fu) << 12 | (byte(1) & 0x3Fu) << 6 | (byte(2) & 0x3Fu);
  default:
    return (byte(0) & 0x07u) << 18 | (byte(1) & 0x3Fu) << 12 | (byte(2) & 0x3Fu) << 6 |
           (byte(3) & 0x3Fu);
  }
}

/// C0, DEL and C1 (ECMA-48, sections 5.2 and 5.3), marks of direction (Unicode Standard
/// Annex 9, section 2), line and paragraph separators, and the byte order mark.
bool steering(const std::uint32_t code)
{
  return code < 0x20 || (code >= 0x7F && code <= 0x9F) || code == 0x61C || code == 0x200E ||
         code == 0x200F || (code >= 0x2028 && code <= 0x202E) ||
         (code >= 0x2066 && code <= 0x2069) || code == 0xFEFF;
}

std::string written(const std::string_view text, const Lines lines)
{
  std::string result;
  for (std::size_t at = 0; at < text.size();)
  {
    const std::size_t length = utf8_length(text, at);
    if (length == 0)
    {
      result += fmt::format("\\x{:02x}", static_cast<unsigned char>(text[at++]));
      continue;
    }
    const std::string_view character = text.substr(at, length);
    const std::uint32_t    code      = code_point(character);
    const bool layout = lines == Lines::several && (code == '\n' || code == '\t');
    if (!steering(code) || layout)
      result += character;
    else
      result +=
          code < 0x80 ? fmt::format("\\x{:02x}", code) : fmt::format("\\u{{{:x}}}", code);
    at += length;
  }
  return result;
}
} // namespace

bool steers(const std::string_view character)
{
  return steering(code_point(character));
}

std::string shown_text(const std::string_view text)
{
  return written(text, Lines::one);
}

std::string shown_lines(const std::string_view text)
{
  return written(text, Lines::several);
}

std::string shown_message(const std::string_view text)
{
  constexpr std::size_t longest = 2000, most = 60; // [bytes], lines
  std::string           result;
  std::size_t           lines = 0, left_out = 0;
  for (std::size_t at = 0; at <= text.size();)
  {
    const std::size_t end  = std::min(text.find('\n', at), text.size());
    const bool        last = end == text.size();
    if (lines < most)
      result +=
          clipped(shown_lines(text.substr(at, end - at)), longest - 4) + (last ? "" : "\n");
    else
      left_out += last && end == at ? 0 : 1;
    ++lines;
    at = end + 1;
  }
  return left_out == 0 ? result : result + fmt::format("... and {} more lines\n", left_out);
}

std::string quoted_text(const std::string_view text, const std::size_t bytes)
{
  std::string quoted = "'";
  for (const char c : shown_text(clipped(text, bytes)))
    quoted += c == '\'' ? std::string("''") : std::string(1, c);
  return quoted + "'";
}

std::string text_cell(const std::string_view text)
{
  const std::string shown   = shown_text(text);
  const bool        formula = shown != "-" && shown.find_first_of("=+-@") == 0;
  return formula ? "'" + shown : shown;
}
} // namespace throughbend
