#include "postprocess/drawing/svg.h"

#include "inputs/units/display_units.h"
#include "postprocess/html/html_text.h"
#include "postprocess/html/svg_tag.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double cap_share =
    0.715; // of the font size: Helvetica, Arial 0.716, DejaVu 0.729

constexpr int digits = 3; // of a place on the sheet

std::string number(const double value)
{
  return svg_number(value, digits);
}

std::string point(const PlaneVector p)
{
  return number(p.x) + " " + number(p.y);
}

/// Share of the font size, after DejaVu Sans, the widest of the letters asked for.
double letter_width(const char c)
{
  if (std::string_view(" .,:;'|!ijlI()[]/-").find(c) != std::string_view::npos)
    return c == ' ' || c == '.' || c == ',' ? 0.32 : 0.39;
  if (std::string_view("mwMW@%").find(c) != std::string_view::npos)
    return 0.98;
  if (c >= 'A' && c <= 'Z')
    return 0.73;
  return 0.64;
}

struct PenStyle
{
  Pen         pen;
  const char *name;
  const char *style;
};
constexpr std::array<PenStyle, 4> pens = {
    {{Pen::outline, "outline", "stroke-width:0.5"},
     {Pen::thin, "thin", "stroke-width:0.18"},
     {Pen::centre, "centre", "stroke-width:0.18;stroke-dasharray:6 1 0.6 1"},
     {Pen::phantom, "phantom",
      "stroke-width:0.25;stroke-dasharray:4 0.8 0.6 0.8 0.6 0.8"}}};

std::string path_of(const Stroke &s)
{
  if (s.radius <= 0)
    return "L" + point(s.to);
  return "A" + number(s.radius) + " " + number(s.radius) + " 0 0 " +
         (s.clockwise ? "1 " : "0 ") + point(s.to);
}

const char *anchor_word(const Anchor anchor)
{
  switch (anchor)
  {
  case Anchor::left:
    return "start";
  case Anchor::middle:
    return "middle";
  case Anchor::right:
    break;
  }
  return "end";
}
} // namespace

bool Box::overlaps(const Box &other) const
{
  return low.x < other.high.x && other.low.x < high.x && low.y < other.high.y &&
         other.low.y < high.y;
}

double text_width(const std::string_view words, const double height)
{
  double shares = 0;
  for (const char c : words)
    if ((c & 0xC0) != 0x80) // one per UTF-8 character
      shares += letter_width(c);
  return shares * height / cap_share;
}

std::vector<std::string> lines_within(const std::string_view words, const double width,
                                      const double height)
{
  std::vector<std::string> lines;
  std::string              line, word;
  const auto               put_word = [&]
  {
    if (word.empty())
      return;
    const std::string longer = line.empty() ? word : line + " " + word;
    if (text_width(longer, height) <= width)
      line = longer;
    else
    {
      if (!line.empty())
        lines.push_back(line);
      line.clear();
      for (const char c : word) // a word longer than a line is broken anywhere
      {
        if ((c & 0xC0) != 0x80 && text_width(line + c, height) > width && !line.empty())
        {
          lines.push_back(line);
          line.clear();
        }
        line += c;
      }
    }
    word.clear();
  };
  for (const char c : words)
    if (c == ' ' || c == '\n' || c == '\t')
      put_word();
    else
      word += c;
  put_word();
  if (!line.empty())
    lines.push_back(line);
  return lines;
}

PlaneVector Stroke::middle() const
{
  const PlaneVector centre_of_chord = 0.5 * (from + to);
  if (radius <= 0)
    return centre_of_chord;
  const PlaneVector chord = to - from;
  const double      span  = throughbend::length(chord);
  const double rise = radius - std::sqrt(std::max(0., radius * radius - span * span / 4));
  const double sign = clockwise ? 1 : -1; // y points down
  return centre_of_chord + (sign * rise / span) * PlaneVector{chord.y, -chord.x};
}

PlaneVector Stroke::centre() const
{
  const PlaneVector chord = to - from;
  const double      span  = throughbend::length(chord);
  const double      apart = std::sqrt(std::max(0., radius * radius - span * span / 4));
  const double      sign  = clockwise ? -1 : 1; // y points down
  return 0.5 * (from + to) + (sign * apart / span) * PlaneVector{chord.y, -chord.x};
}

void Sheet::line(const PlaneVector from, const PlaneVector to, const Pen pen)
{
  strokes_.push_back({from, to, 0, false, pen, layer_});
}

void Sheet::stroke(Stroke stroke)
{
  stroke.layer = layer_;
  strokes_.push_back(stroke);
}

void Sheet::rectangle(const Box &box, const Pen pen)
{
  const PlaneVector a = box.low, c = box.high, b = {c.x, a.y}, d = {a.x, c.y};
  line(a, b, pen);
  line(b, c, pen);
  line(c, d, pen);
  line(d, a, pen);
}

void Sheet::arrow(const PlaneVector tip, const PlaneVector towards)
{
  constexpr double  head_length = 2.5, half_width = 0.4; // [mm]
  const PlaneVector along = (1 / length(towards)) * towards, across = {-along.y, along.x};
  const PlaneVector base = tip - head_length * along;
  heads_.push_back({tip, base + half_width * across, base - half_width * across, layer_});
}

void Sheet::text(const PlaneVector base, const Anchor anchor, std::string words,
                 const double height)
{
  const double width = text_width(words, height);
  const double left  = anchor == Anchor::left     ? base.x
                       : anchor == Anchor::middle ? base.x - width / 2
                                                  : base.x - width;
  const Box box = {{left, base.y - 1.05 * height}, {left + width, base.y + 0.3 * height}};
  texts_.push_back({std::move(words), base, anchor, height, box, layer_});
}

void Sheet::place(const Sheet &other, const PlaneVector shift,
                  const std::optional<Layer> layer)
{
  for (Stroke s : other.strokes_)
  {
    s.from  = s.from + shift;
    s.to    = s.to + shift;
    s.layer = layer.value_or(s.layer);
    strokes_.push_back(s);
  }
  for (const ArrowHead &h : other.heads_)
    heads_.push_back(
        {h.tip + shift, h.left + shift, h.right + shift, layer.value_or(h.layer)});
  for (SheetText t : other.texts_)
  {
    t.at    = t.at + shift;
    t.layer = layer.value_or(t.layer);
    t.box   = {t.box.low + shift, t.box.high + shift};
    texts_.push_back(t);
  }
}

Box Sheet::bounds() const
{
  Box        around{{1e30, 1e30}, {-1e30, -1e30}};
  const auto take = [&](PlaneVector p)
  {
    around.low  = {std::min(around.low.x, p.x), std::min(around.low.y, p.y)};
    around.high = {std::max(around.high.x, p.x), std::max(around.high.y, p.y)};
  };
  for (const Stroke &s : strokes_)
  {
    take(s.from);
    take(s.to);
    take(s.middle());
  }
  for (const ArrowHead &h : heads_)
  {
    take(h.tip);
    take(h.left);
    take(h.right);
  }
  for (const SheetText &t : texts_)
  {
    take(t.box.low);
    take(t.box.high);
  }
  return around;
}

std::string Sheet::svg(const std::string_view title, const double width,
                       const double height) const
{
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                    "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"" +
                    number(width) + "mm\" height=\"" + number(height) +
                    "mm\" viewBox=\"0 0 " + number(width) + " " + number(height) +
                    "\">\n<title>" + escaped(std::string(title)) +
                    "</title>\n<style>path{fill:none;"
                    "stroke:#000;stroke-linecap:round;stroke-linejoin:round}";
  for (const PenStyle &style : pens)
    out += "." + std::string(style.name) + "{" + style.style + "}";
  out += ".head{fill:#000;stroke:none}text{font-family:Helvetica,Arial,'DejaVu Sans',"
         "sans-serif;fill:#000}</style>\n<rect width=\"100%\" height=\"100%\" "
         "fill=\"#fff\"/>\n";

  for (const PenStyle &style : pens)
  {
    std::string path;
    PlaneVector end = {-1, -1};
    for (const Stroke &s : strokes_)
    {
      if (s.pen != style.pen)
        continue;
      if (throughbend::length(s.from - end) > 1e-6) // else one line with its dashes goes on
        path += (path.empty() ? "M" : "\nM") + point(s.from);
      path += path_of(s);
      end = s.to;
    }
    if (!path.empty())
      out += SvgTag("path").set("class", style.name).set("d", path).alone();
  }
  for (const ArrowHead &head : heads_)
    out += SvgTag("path")
               .set("class", "head")
               .set("d", "M" + point(head.tip) + "L" + point(head.left) + "L" +
                             point(head.right) + "Z")
               .alone();
  for (const SheetText &text : texts_)
    out += SvgTag("text", digits)
               .place(text.at.x, text.at.y)
               .set("font-size", text.height / cap_share)
               .set("text-anchor", anchor_word(text.anchor))
               .around(text.words);
  return out + "</svg>\n";
}
} // namespace throughbend
