#include "postprocess/card/card_text.h"

#include "postprocess/html/html_text.h"

namespace throughbend
{
namespace
{
// Room for a path that others have named [bytes].
constexpr std::size_t path_room = 40;
} // namespace

std::string element(const std::string &tag, const std::string &text,
                    const std::string &kind)
{
  return "<" + tag + (kind.empty() ? "" : " class=\"" + kind + "\"") + ">" + escaped(text) +
         "</" + tag + ">\n";
}

std::string path_text(const std::string &path)
{
  if (path.size() <= path_room)
    return path;
  std::size_t from = path.size() - path_room;
  while (from < path.size() && (static_cast<unsigned char>(path[from]) & 0xC0) == 0x80)
    ++from; // not inside a UTF-8 character
  return "..." + path.substr(from);
}

std::string both(const double value, const Measure measure, const Rounded rounded,
                 const BenchCard &card)
{
  return card_figures(value, measure, rounded, card.units);
}

std::string given(const double     value, std::string (*text)(double, UnitSystem),
                  const BenchCard &card)
{
  return text(value, card.units) + " (" + text(value, other_units(card.units)) + ")";
}
} // namespace throughbend
