#include "postprocess/lesson/lesson_picture.h"

#include "inputs/display_units.h"
#include "inputs/html_text.h"
#include "postprocess/shape_scale.h"

#include <algorithm>

namespace throughbend
{
namespace
{
std::string number(const double value)
{
  return decimal_text(value, 2);
}

std::string place(const Vec2 p)
{
  return number(p.x) + " " + number(-p.y); // y points down in SVG
}
} // namespace

Shape flat_shape(const PassShapes &shapes)
{
  Shape flat;
  flat.points = shapes.flat;
  return flat;
}

std::string outline_picture(const PassShapes &shapes, const Shape &shape,
                            const std::string &title, const std::vector<std::size_t> &marks)
{
  const ShapeScale window = closer_scale(shapes, shape);
  const double width = window.high.x - window.low.x, height = window.high.y - window.low.y;
  const double line = std::max(width, height) / 400;
  std::string  svg  = "<svg class=\"outline\" role=\"img\" "
                      "xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"" +
                    place({window.low.x, window.high.y}) + " " + number(width) + " " +
                    number(height) + "\" stroke-width=\"" + number(line) + "\">\n<title>" +
                    escaped(title) + "</title>\n";
  const bool half = shapes.part == ModelPart::right_half;
  for (const DrawnTool &tool : shapes.tools)
    for (const double side :
         half && !tool.is_plunger ? std::vector<double>{1, -1} : std::vector<double>{1})
    {
      std::string path;
      for (const Vec2 &p : tool.outline)
        path += (path.empty() ? "M" : "L") +
                place({side * p.x, p.y - (tool.is_plunger ? shape.travel : 0)});
      svg += "<path d=\"" + path + "Z\" fill=\"#e3e6ea\" stroke=\"#6b727c\"/>\n";
    }
  std::string edges;
  const auto  add = [&](const double side)
  {
    for (const std::array<int, 2> &edge : shapes.edges)
    {
      const Vec2 &a = shape.points[static_cast<std::size_t>(edge[0])];
      const Vec2 &b = shape.points[static_cast<std::size_t>(edge[1])];
      edges += "M" + place({side * a.x, a.y}) + "L" + place({side * b.x, b.y});
    }
  };
  add(1);
  if (half)
    add(-1);
  svg += "<path d=\"" + edges +
         "\" fill=\"none\" stroke=\"#1a2028\" stroke-linecap=\"round\" "
         "stroke-width=\"" +
         number(1.8 * line) + "\"/>\n";
  for (const std::size_t i : marks)
    for (const double side : half ? std::vector<double>{1, -1} : std::vector<double>{1})
    {
      const Vec2 p = {side * shape.points[i].x, shape.points[i].y};
      svg += "<circle class=\"mark\" cx=\"" + number(p.x) + "\" cy=\"" + number(-p.y) +
             "\" r=\"" + number(7 * line) +
             "\" fill=\"none\" stroke=\"#a3220f\" "
             "stroke-width=\"" +
             number(3 * line) + "\"/>\n";
    }
  return svg + "</svg>\n";
}
} // namespace throughbend
