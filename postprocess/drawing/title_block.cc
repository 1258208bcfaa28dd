#include "postprocess/drawing/title_block.h"

#include "inputs/units/exact_units.h"
#include "inputs/units/shop_fraction.h"

#include <array>

namespace throughbend
{
namespace
{
constexpr double title_size = 3, step = 4.1; // [mm]

/// The beginning of a text that is too long for its place, with dots.
std::string begun(std::string words, const double width, const double height = text_height)
{
  if (text_width(words, height) <= width)
    return words;
  while (!words.empty() && text_width(words + " ...", height) > width)
  {
    while (words.size() > 1 && (words.back() & 0xC0) == 0x80)
      words.pop_back();
    words.pop_back();
  }
  return words + " ...";
}

std::string length_words(const double length, const UnitSystem units)
{
  return units == UnitSystem::us ? inch_text(length) : millimetre_text(length);
}

void draw_bar(Sheet &sheet, const TitleBlock::Bar &bar, const PlaneVector right,
              const UnitSystem units)
{
  const double left = right.x - bar.paper;
  sheet.line({left, right.y}, right, Pen::outline);
  for (const double x : {left, right.x})
    sheet.line({x, right.y - 1.3}, {x, right.y + 1.3}, Pen::outline);
  sheet.text({left - 1.5, right.y + 1.2}, Anchor::right, length_words(bar.world, units));
}
} // namespace

TitleBlock::Bar TitleBlock::bar() const
{
  constexpr std::array<double, 6> steps = {5, 4, 2.5, 2, 1, 0.5};
  constexpr double                most  = 25.4; // on paper [mm]
  const double                    unit  = units == UnitSystem::us ? mm_per_inch : 1;
  for (double power = 1000; power > 1e-4; power /= 10)
    for (const double share : steps)
    {
      if (share == (units == UnitSystem::us ? 2.5 : 4.))
        continue;
      const double world = share * power * unit;
      if (world * scale <= most * (1 + 1e-9))
        return {world, world * scale};
    }
  return {};
}

void draw(Sheet &sheet, const Box &box, const TitleBlock &block)
{
  sheet.use(Layer::sheet);
  sheet.rectangle(box, Pen::outline);
  const double left = box.low.x + 2, right = box.high.x - 2, width = right - left;
  const auto   rule_off = [&](double y) { sheet.line({box.low.x, y}, {box.high.x, y}); };

  std::vector<std::string> title = lines_within(block.title, width, title_size);
  if (title.size() > 2)
    title = {title[0], begun(title[1] + " " + title[2], width, title_size)};
  double y = box.low.y + 4.4;
  for (const std::string &line : title)
  {
    sheet.text({left, y}, Anchor::left, line, title_size);
    y += 4.8;
  }

  y = box.low.y + 11;
  rule_off(y);
  y += step;
  const std::string sheet_words =
      block.paper + (block.units == UnitSystem::us ? ", inch [mm]" : ", mm [inch]");
  sheet.text({left, y}, Anchor::left, "Bend-test fixture and coupon");
  sheet.text({right, y}, Anchor::right, sheet_words);
  y += step;
  sheet.text({left, y}, Anchor::left, begun("Rule: " + block.rule, width));
  y += step;
  sheet.text({left, y}, Anchor::left, "Scale " + block.scales);
  draw_bar(sheet, block.bar(), {right - 1, y - 1.2}, block.units);
  rule_off(y + 1.5);

  y += 1.3;
  for (const std::string &line : lines_within(
           "An estimate and a sketch, no manufacturing drawing. The governing code "
           "in its current edition decides, not this sheet.",
           width))
    sheet.text({left, y += step}, Anchor::left, line);
  rule_off(y + 1.5);
  y += 1.3 + step;
  const double date = block.date.empty() ? 0 : text_width(block.date) + 3;
  sheet.text({left, y}, Anchor::left, begun(block.program, width - date));
  if (!block.date.empty())
    sheet.text({right, y}, Anchor::right, block.date);
}
} // namespace throughbend
