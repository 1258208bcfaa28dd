#include "postprocess/study/drawing.h"

#include "inputs/units/display_units.h"
#include "postprocess/html/html_text.h"
#include "postprocess/html/svg_tag.h"
#include "postprocess/pictures/raster.h"

#include <cmath>
#include <cstdlib>

namespace throughbend
{
namespace
{
std::string look_text(const Look &look)
{
  std::string text = " fill=\"" + (look.fill.empty() ? "none" : look.fill) + "\"";
  if (look.stroke.empty())
    return text;
  text += " stroke=\"" + look.stroke + "\" stroke-width=\"" + svg_number(look.width) + "\"";
  if (look.dashes.empty())
    return text;
  text += " stroke-dasharray=\"";
  for (std::size_t i = 0; i < look.dashes.size(); ++i)
    text += (i > 0 ? " " : "") + svg_number(look.dashes[i]);
  return text + "\"";
}

Colour colour_of(const std::string &hex)
{
  const unsigned long value = std::strtoul(hex.c_str() + 1, nullptr, 16);
  return {static_cast<unsigned char>(value >> 16 & 255),
          static_cast<unsigned char>(value >> 8 & 255),
          static_cast<unsigned char>(value & 255)};
}

/// The strokes of a dashed line, each by its ends.
std::vector<std::pair<PlaneVector, PlaneVector>>
strokes(const std::vector<PlaneVector> &points, const std::vector<double> &dashes)
{
  std::vector<std::pair<PlaneVector, PlaneVector>> all;
  std::size_t                                      now  = 0;
  double                                           left = dashes.empty() ? 0 : dashes[0];
  for (std::size_t i = 1; i < points.size(); ++i)
  {
    if (dashes.empty())
    {
      all.emplace_back(points[i - 1], points[i]);
      continue;
    }
    const PlaneVector way  = points[i] - points[i - 1];
    const double      size = length(way);
    for (double done = 0; done < size;)
    {
      const double part = std::min(left, size - done);
      if (now % 2 == 0)
        all.emplace_back(points[i - 1] + (done / size) * way,
                         points[i - 1] + ((done + part) / size) * way);
      done += part;
      left -= part;
      if (left <= 1e-9)
        left = dashes[++now % dashes.size()];
    }
  }
  return all;
}
} // namespace

Drawing::Drawing(const double width, const double height, std::string title)
    : width_(width), height_(height), title_(std::move(title))
{
}

Drawing::Item &Drawing::add(const Kind kind, Points points, const Look &look)
{
  Item &item  = items_.emplace_back();
  item.kind   = kind;
  item.points = std::move(points);
  item.look   = look;
  return item;
}

void Drawing::rectangle(const double x, const double y, const double width,
                        const double height, const Look &look, const std::string &data)
{
  add(Kind::rectangle, {{x, y}, {x + width, y + height}}, look).data = data;
}

void Drawing::line(const double x1, const double y1, const double x2, const double y2,
                   const Look &look)
{
  path({{x1, y1}, {x2, y2}}, look);
}

void Drawing::path(const Points &points, const Look &look)
{
  add(Kind::path, points, look);
}

void Drawing::area(const Points &points, const Look &look)
{
  add(Kind::area, points, look);
}

void Drawing::circle(const double x, const double y, const double radius, const Look &look)
{
  add(Kind::circle, {{x, y}}, look).radius = radius;
}

void Drawing::text(const double x, const double y, const std::string &words,
                   const Lettering &lettering)
{
  Item &item     = add(Kind::text, {{x, y}}, {});
  item.words     = words;
  item.lettering = lettering;
}

std::string Drawing::svg() const
{
  std::string svg = "<svg class=\"chart\" role=\"img\" "
                    "xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 " +
                    svg_number(width_) + " " + svg_number(height_) +
                    "\" font-family=\"Arial, " +
                    "'Liberation Sans', 'DejaVu Sans', sans-serif\">\n<title>" +
                    escaped(title_) + "</title>\n";
  for (const Item &item : items_)
  {
    const auto [x, y] = item.points.empty() ? std::pair(0., 0.) : item.points[0];
    switch (item.kind)
    {
    case Kind::rectangle:
      svg += SvgTag("rect")
                 .place(x, y)
                 .size(item.points[1].first - x, item.points[1].second - y)
                 .add(look_text(item.look))
                 .add(item.data)
                 .alone();
      break;
    case Kind::circle:
      svg += SvgTag("circle")
                 .centre(x, y)
                 .set("r", item.radius)
                 .add(look_text(item.look))
                 .alone();
      break;
    case Kind::text:
    {
      const Lettering &how = item.lettering;
      SvgTag           tag("text");
      tag.place(x, y)
          .set("text-anchor", how.anchor)
          .set("font-size", how.size)
          .set("fill", how.colour);
      if (how.bold)
        tag.add("font-weight=\"700\"");
      if (how.rimmed)
        tag.add("stroke=\"#ffffff\" stroke-width=\"3.5\" paint-order=\"stroke\"");
      if (how.turn == Turn::upwards)
        tag.set("transform", "rotate(-90 " + svg_number(x) + " " + svg_number(y) + ")");
      svg += tag.around(item.words);
      break;
    }
    case Kind::path:
    case Kind::area:
      std::string way;
      for (const auto &[px, py] : item.points)
        way += (way.empty() ? "M" : "L") + svg_number(px) + " " + svg_number(py);
      if (!way.empty())
        svg += SvgTag("path")
                   .set("d", way + (item.kind == Kind::area ? "Z" : ""))
                   .add(look_text(item.look))
                   .alone();
      break;
    }
  }
  return svg + "</svg>\n";
}

std::string Drawing::png(const double scale) const
{
  Raster     picture(static_cast<int>(std::lround(width_ * scale)),
                     static_cast<int>(std::lround(height_ * scale)), {255, 255, 255});
  const auto draw =
      [&](std::vector<PlaneVector> points, const Look &look, const bool closed)
  {
    if (!look.fill.empty() && closed)
      picture.fill(points, colour_of(look.fill));
    if (look.stroke.empty())
      return;
    if (closed)
      points.push_back(points.front());
    std::vector<double> dashes = look.dashes;
    for (double &dash : dashes)
      dash *= scale;
    for (const auto &[from, to] : strokes(points, dashes))
      picture.line(from, to, look.width * scale, colour_of(look.stroke));
  };
  for (const Item &item : items_)
  {
    std::vector<PlaneVector> points;
    for (const auto &[x, y] : item.points)
      points.push_back({x * scale, y * scale});
    if (points.empty())
      continue;
    switch (item.kind)
    {
    case Kind::rectangle:
      draw({points[0], {points[1].x, points[0].y}, points[1], {points[0].x, points[1].y}},
           item.look, true);
      break;
    case Kind::circle:
    {
      std::vector<PlaneVector> around;
      constexpr int            n = 48;
      for (int i = 0; i < n; ++i)
        around.push_back({points[0].x + item.radius * scale * std::cos(2 * M_PI * i / n),
                          points[0].y + item.radius * scale * std::sin(2 * M_PI * i / n)});
      draw(around, item.look, true);
      break;
    }
    case Kind::path:
      draw(points, item.look, false);
      break;
    case Kind::area:
      draw(points, item.look, true);
      break;
    case Kind::text:
    {
      const Lettering  &how    = item.lettering;
      const std::string anchor = how.anchor;
      picture.text(
          item.words, points[0], static_cast<int>(std::lround(how.size * scale)),
          anchor == "start" ? Anchor::left
          : anchor == "end" ? Anchor::right
                            : Anchor::middle,
          colour_of(how.colour),
          {how.turn == Turn::upwards ? TextDirection::upwards : TextDirection::level,
           how.bold ? Weight::bold : Weight::plain, how.rimmed ? Rim::white : Rim::none});
      break;
    }
    }
  }
  return picture.png();
}
} // namespace throughbend
