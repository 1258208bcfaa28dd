#include "postprocess/shapes/shape_array.h"

#include "inputs/text/plain_text.h"
#include "inputs/text/shown_text.h"

#include <fmt/core.h>
#include <zlib.h>

#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <system_error>

namespace throughbend
{
namespace
{
constexpr auto blanks = " \t\r\n";

/// Bytes of base64 (RFC 4648, section 4) without blanks in it; nothing where it is none.
std::optional<std::string> from_base64(const std::string_view text)
{
  const auto value = [](const char c)
  {
    return c >= 'A' && c <= 'Z'   ? c - 'A'
           : c >= 'a' && c <= 'z' ? c - 'a' + 26
           : c >= '0' && c <= '9' ? c - '0' + 52
           : c == '+'             ? 62
           : c == '/'             ? 63
                                  : -1;
  };
  if (text.size() % 4 != 0)
    return std::nullopt;
  std::string bytes;
  bytes.reserve(text.size() / 4 * 3);
  for (std::size_t i = 0; i < text.size(); i += 4)
  {
    const bool    last = i + 4 == text.size();
    const int     pads = !last ? 0 : (text[i + 2] == '=' ? 2 : text[i + 3] == '=' ? 1 : 0);
    std::uint32_t word = 0;
    for (std::size_t k = 0; k < 4; ++k)
    {
      const int bits = k >= static_cast<std::size_t>(4 - pads) && text[i + k] == '='
                           ? 0
                           : value(text[i + k]);
      if (bits < 0)
        return std::nullopt;
      word = word << 6u | static_cast<std::uint32_t>(bits);
    }
    for (int k = 0; k < 3 - pads; ++k)
      bytes += static_cast<char>(word >> (16 - 8 * k) & 255u);
  }
  return bytes;
}

struct NumberType
{
  std::string_view name;
  std::size_t      bytes;
  double (*value)(const char *);
};

template <typename Number>
double value_of(const char *const bytes)
{
  Number number;
  std::memcpy(&number, bytes, sizeof number);
  return static_cast<double>(number);
}

const NumberType &type_of(const XmlScan &scan)
{
  static constexpr std::array<NumberType, 5> types = {
      {{"Float32", 4, value_of<float>},
       {"Float64", 8, value_of<double>},
       {"Int32", 4, value_of<std::int32_t>},
       {"Int64", 8, value_of<std::int64_t>},
       {"UInt8", 1, value_of<std::uint8_t>}}};
  const std::string_view given = scan.attribute("type").value_or("");
  for (const NumberType &type : types)
    if (type.name == given)
      return type;
  scan.refuse("numbers of type " + quoted_text(given) + ", which no run writes");
}

void check_length(const XmlScan &scan, const std::string &name, const std::size_t there,
                  const ArrayLength length)
{
  if (there < length.least || there > length.most)
    scan.refuse(fmt::format(
        "the array {} has {} numbers where {} belong", quoted_text(name), there,
        length.least == length.most ? fmt::format("{}", length.least)
                                    : fmt::format("{} to {}", length.least, length.most)));
}

std::vector<double> of_text(const XmlScan &scan, const std::string &name,
                            const std::string_view text, const ArrayLength length)
{
  std::vector<double> values;
  values.reserve(std::min(length.most, text.size() / 2 + 1));
  for (std::size_t at = text.find_first_not_of(blanks); at < text.size();
       at             = text.find_first_not_of(blanks, at))
  {
    const std::size_t      end   = std::min(text.find_first_of(blanks, at), text.size());
    const std::string_view word  = text.substr(at, end - at);
    double                 value = 0;
    const auto read = std::from_chars(word.data(), word.data() + word.size(), value);
    if (read.ec != std::errc{} || read.ptr != word.data() + word.size())
      scan.refuse("in the array " + name + " " + quoted_text(word) + " is no number");
    if (values.size() == length.most)
      check_length(scan, name, values.size() + 1, length);
    values.push_back(value);
    at = end;
  }
  check_length(scan, name, values.size(), length);
  return values;
}

/// A head of four whole numbers: blocks, bytes of a block and of the last one, and bytes of
/// the block as it is packed; then the block. Each in base64 by itself.
std::vector<double> unpacked(const XmlScan &scan, const std::string &name,
                             const std::string_view text, const NumberType &type,
                             const ArrayLength length)
{
  constexpr std::size_t head_letters = 24; // of 16 bytes
  const auto            head         = from_base64(text.substr(0, head_letters));
  if (text.size() < head_letters || !head || head->size() != 16)
    scan.refuse("the array " + quoted_text(name) + " is not packed as a run packs it");
  const auto number = [&](const std::size_t i)
  {
    std::uint32_t value = 0;
    std::memcpy(&value, head->data() + 4 * i, sizeof value);
    return value;
  };
  const std::size_t size = number(1);
  if (number(0) != 1 || number(2) != size || size % type.bytes != 0)
    scan.refuse("the array " + quoted_text(name) + " is not packed as a run packs it");
  check_length(scan, name, size / type.bytes, length);
  const auto packed = from_base64(text.substr(head_letters));
  if (!packed || packed->size() != number(3))
    scan.refuse("the array " + quoted_text(name) +
                " is not as long as its head says, or no base64");
  std::string bytes(size, '\0');
  uLongf      n = size;
  if (uncompress(reinterpret_cast<Bytef *>(bytes.data()), &n,
                 reinterpret_cast<const Bytef *>(packed->data()), packed->size()) != Z_OK ||
      n != size)
    scan.refuse("the array " + quoted_text(name) + " cannot be unpacked");
  std::vector<double> values(size / type.bytes);
  for (std::size_t i = 0; i < values.size(); ++i)
    values[i] = type.value(bytes.data() + i * type.bytes);
  return values;
}

/// Up to the close of the element, which must hold nothing but text.
std::string_view text_within(XmlScan &scan)
{
  XmlScan::Part part = scan.next();
  const bool    any  = part == XmlScan::Part::text;
  const auto    text = any ? scan.text() : std::string_view();
  if (any)
    part = scan.next();
  if (part != XmlScan::Part::close)
    scan.refuse("an array holds more than numbers");
  return text;
}
} // namespace

std::vector<double> read_shape_array(XmlScan &scan, const ArrayLength length,
                                     const double largest)
{
  const NumberType &type = type_of(scan);
  const std::string name =
      shown_text(clipped(scan.attribute("Name").value_or("of points"), 40));
  const std::string format = std::string(scan.attribute("format").value_or(""));
  if (format != "ascii" && format != "binary")
    scan.refuse("the array " + quoted_text(name) + " is of format " + quoted_text(format) +
                ", which no run writes");
  const std::string_view    text = text_within(scan);
  const std::vector<double> values =
      format == "ascii" ? of_text(scan, name, text, length)
                        : unpacked(scan, name, trimmed(text), type, length);
  for (const double value : values)
    if (!(std::abs(value) <= largest))
      scan.refuse(fmt::format("the array {} holds the number {}, which no run writes",
                              quoted_text(name), value));
  return values;
}

void skip_element(XmlScan &scan)
{
  for (int depth = 1; depth > 0;)
    switch (scan.next())
    {
    case XmlScan::Part::open:
      ++depth;
      break;
    case XmlScan::Part::close:
      --depth;
      break;
    case XmlScan::Part::text:
    case XmlScan::Part::end:
      break;
    }
}
} // namespace throughbend
