#include "postprocess/drawing/dimension_line.h"

#include "inputs/units/shop_fraction.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double above     = 0.9; // base line above the dimension line [mm]
constexpr double below     = 3.7; // base line below it [mm]
constexpr double tail      = 5;   // of an arrow that points inward from outside [mm]
constexpr double past_line = 1.5; // extension lines go on past the dimension line [mm]
constexpr double off_edge  = 1;   // and begin clear of the edge [mm]
constexpr double two_heads = 8;   // arrows between closer lines point inward [mm]

void both_lines(Sheet &sheet, const PlaneVector at, const Anchor anchor,
                const DimensionText &text)
{
  sheet.text({at.x, at.y - above}, anchor, text.over());
  sheet.text({at.x, at.y + below}, anchor, text.under());
}

double towards(const double from, const double to)
{
  return to > from ? 1 : -1;
}
} // namespace

std::string DimensionText::over() const
{
  return (letter.empty() ? "" : letter + " ") + prefix + in(first);
}

std::string DimensionText::under() const
{
  return "[" + prefix + in(first == UnitSystem::us ? UnitSystem::metric : UnitSystem::us) +
         "]";
}

std::string DimensionText::in(const UnitSystem units) const
{
  std::string text = units == UnitSystem::us ? inch_text(value) : millimetre_text(value);
  for (const SizeLimits &l : limits)
    if (const std::string deviation = deviation_text(value, l, units); !deviation.empty())
      text += " " + deviation;
  return text;
}

double DimensionText::width() const
{
  return std::max(text_width(over()), text_width(under()));
}

void draw(Sheet &sheet, const LevelDimension &d, const DimensionText &text)
{
  const double down = towards(d.edge, d.line);
  for (const double x : {d.from, d.to})
    sheet.line({x, d.edge + down * off_edge}, {x, d.line + down * past_line});

  const double room = d.to - d.from, width = text.width();
  const bool   heads_inside = room >= two_heads, text_inside = room >= width + 3;
  double       left = d.from, right = d.to;
  if (!heads_inside)
  {
    left -= tail;
    right += tail;
  }
  const double start = std::max(d.to + tail, d.clear_of);
  if (!text_inside)
    right = start + width;
  sheet.line({left, d.line}, {right, d.line});
  sheet.arrow({d.from, d.line}, {heads_inside ? -1. : 1., 0});
  sheet.arrow({d.to, d.line}, {heads_inside ? 1. : -1., 0});
  if (text_inside)
    both_lines(sheet, {(d.from + d.to) / 2, d.line}, Anchor::middle, text);
  else
    both_lines(sheet, {start, d.line}, Anchor::left, text);
}

void draw(Sheet &sheet, const UprightDimension &d, const DimensionText &text)
{
  const auto extension = [&](double y, double edge)
  {
    const double way = towards(edge, d.line);
    sheet.line({edge + way * off_edge, y}, {d.line + way * past_line, y});
  };
  extension(d.from, d.edge_from);
  extension(d.to, d.edge_to);
  const bool   heads_inside = d.to - d.from >= two_heads;
  const double out          = heads_inside ? 0 : tail;
  sheet.line({d.line, d.from - out}, {d.line, d.to + out});
  sheet.arrow({d.line, d.from}, {0, heads_inside ? -1. : 1.});
  sheet.arrow({d.line, d.to}, {0, heads_inside ? 1. : -1.});
  const double middle = (d.from + d.to) / 2, aside = past_line + 1;
  if (d.side == Beside::before)
    both_lines(sheet, {d.line - aside, middle - 0.5}, Anchor::right, text);
  else
    both_lines(sheet, {d.line + aside, middle - 0.5}, Anchor::left, text);
}

void draw(Sheet &sheet, const Leader &l, const DimensionText &text)
{
  const double way   = l.side == Beside::after ? 1 : -1;
  const double start = l.knee.x + way * (l.clear_of + 1);
  const double end   = start + way * text.width();
  sheet.line(l.tip, l.knee);
  sheet.line(l.knee, {end, l.knee.y});
  sheet.arrow(l.tip, l.tip - l.knee);
  both_lines(sheet, {start, l.knee.y},
             l.side == Beside::after ? Anchor::left : Anchor::right, text);
}
} // namespace throughbend
