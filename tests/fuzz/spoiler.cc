#include "tests/fuzz/spoiler.h"

#include "postprocess/html/html_text.h"

#include <zlib.h>

#include <array>
#include <cstring>
#include <limits>

namespace throughbend
{
std::size_t Spoiler::below(const std::size_t limit)
{
  return limit == 0 ? 0 : random_() % limit;
}

std::string Spoiler::spoiled(std::string text)
{
  for (std::size_t n = 1 + below(4); n > 0; --n)
    switch (below(8))
    {
    case 0:
    case 1:
      spoil_bytes(text);
      break;
    case 2:
    case 3:
      spoil_piece(text);
      break;
    case 4:
      spoil_nesting(text);
      break;
    case 5:
      spoil_array(text);
      break;
    default:
      spoil_number(text);
      break;
    }
  return text;
}

void Spoiler::spoil_bytes(std::string &text)
{
  for (std::size_t n = 1 + below(5); n > 0 && !text.empty(); --n)
  {
    char &byte = text[below(text.size())];
    byte       = static_cast<char>(below(2) == 0 ? below(256) : byte ^ (1 << below(8)));
  }
}

void Spoiler::spoil_piece(std::string &text)
{
  const std::size_t from = below(text.size() + 1);
  const std::size_t n    = below(std::min<std::size_t>(text.size() - from, 400) + 1);
  switch (below(5))
  {
  case 0:
    text.erase(from, n);
    break;
  case 1:
    text.resize(from);
    break;
  case 2:
    text.insert(below(text.size() + 1), text.substr(from, n));
    break;
  case 3:
    text.insert(from, strange());
    break;
  default:
    text.replace(from, n, strange());
    break;
  }
}

/// A run of digits, with sign, point and exponent, by what no run writes.
void Spoiler::spoil_number(std::string &text)
{
  const char *const digits = "0123456789";
  std::size_t       from   = text.find_first_of(digits, below(text.size() + 1));
  if (from == std::string::npos)
    from = text.find_first_of(digits);
  if (from == std::string::npos)
    return;
  const std::size_t end =
      std::min(text.find_first_not_of("0123456789.eE+-", from), text.size());
  text.replace(from, end - from, strange());
}

void Spoiler::spoil_nesting(std::string &text)
{
  const std::array<const char *, 4> pieces = {"[", "{\"a\":", "<a>",
                                              "<Piece NumberOfPoints=\"1\">"};
  const std::string                 piece  = pieces[below(pieces.size())];
  std::string                       deep;
  for (std::size_t n = below(2) == 0 ? 40 : 50'000; n > 0; --n)
    deep += piece;
  text.insert(below(text.size() + 1), deep);
}

/// Numbers within an array that is packed and in base64: only so a fault comes past zlib.
void Spoiler::spoil_array(std::string &text)
{
  const std::string mark = "format=\"binary\"";
  std::size_t       at   = text.find(mark, below(text.size() + 1));
  if (at == std::string::npos)
    at = text.find(mark);
  if (at == std::string::npos)
    return spoil_number(text);
  const std::size_t from = text.find('>', at), end = text.find('<', at);
  if (from == std::string::npos || end == std::string::npos || end < from)
    return;
  const std::array<double, 8> odd = {std::numeric_limits<double>::quiet_NaN(),
                                     std::numeric_limits<double>::infinity(),
                                     -1,
                                     1e30,
                                     7,
                                     1e6,
                                     0,
                                     -1e4};
  const std::size_t           n   = 1 + below(2000);
  std::string                 bytes(4 * n, '\0');
  for (std::size_t i = 0; i < n; ++i)
  {
    const auto number = static_cast<float>(odd[below(odd.size())]);
    const auto whole  = static_cast<std::int32_t>(below(3000)) - 5;
    std::memcpy(&bytes[4 * i], below(2) == 0 ? static_cast<const void *>(&number) : &whole,
                4);
  }
  uLongf      size = compressBound(bytes.size());
  std::string packed(size, '\0');
  compress(reinterpret_cast<Bytef *>(packed.data()), &size,
           reinterpret_cast<const Bytef *>(bytes.data()), bytes.size());
  packed.resize(size);
  std::array<std::uint32_t, 4> head = {1, static_cast<std::uint32_t>(bytes.size()),
                                       static_cast<std::uint32_t>(bytes.size()),
                                       static_cast<std::uint32_t>(packed.size())};
  if (below(3) == 0)
    head[below(4)] = static_cast<std::uint32_t>(random_());
  std::string head_bytes(16, '\0');
  std::memcpy(head_bytes.data(), head.data(), 16);
  text.replace(from + 1, end - from - 1, base64(head_bytes) + base64(packed));
}

std::string Spoiler::strange()
{
  static const std::array<std::string, 36> words = {"",
                                                    "0",
                                                    "-1",
                                                    "1e999",
                                                    "-1e308",
                                                    "nan",
                                                    "inf",
                                                    "4294967296",
                                                    "2147483648",
                                                    "99999999999999999999",
                                                    "1e-320",
                                                    "0x10",
                                                    "1,5",
                                                    "\"",
                                                    "'",
                                                    "<",
                                                    ">",
                                                    "&",
                                                    "{",
                                                    "}",
                                                    "[",
                                                    "]",
                                                    ",",
                                                    ":",
                                                    "\n",
                                                    std::string(1, '\0'),
                                                    "\xff\xfe",
                                                    "\xc3",
                                                    "\x1b[2J",
                                                    "{1}",
                                                    "null",
                                                    "true",
                                                    "</DataArray>",
                                                    "../../etc/passwd",
                                                    "<script>",
                                                    "<!DOCTYPE a [<!ENTITY b \"c\">]>"};
  std::string                              word  = words[below(words.size())];
  if (below(12) == 0)
    word = std::string(below(5000), word.empty() ? '9' : word[0]);
  return word;
}
} // namespace throughbend
