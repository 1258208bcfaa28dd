#include "postprocess/lesson/lesson_picture.h"

#include "postprocess/html/html_text.h"
#include "postprocess/html/svg_tag.h"
#include "postprocess/shapes/shape_scale.h"

#include <algorithm>

namespace throughbend
{
namespace
{
std::string place(const PlaneVector p)
{
  return svg_number(p.x) + " " + svg_number(-p.y); // y points down in SVG
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
                    place({window.low.x, window.high.y}) + " " + svg_number(width) + " " +
                    svg_number(height) + "\" stroke-width=\"" + svg_number(line) +
                    "\">\n<title>" + escaped(title) + "</title>\n";
  const bool half = shapes.part == ModelPart::right_half;
  for (const DrawnTool &tool : shapes.tools)
    for (const double side :
         half && !tool.is_plunger ? std::vector<double>{1, -1} : std::vector<double>{1})
    {
      std::string path;
      for (const PlaneVector &p : tool.outline)
        path += (path.empty() ? "M" : "L") +
                place({side * p.x, p.y - (tool.is_plunger ? shape.travel : 0)});
      svg += SvgTag("path")
                 .set("d", path + "Z")
                 .add("fill=\"#e3e6ea\" stroke=\"#6b727c\"")
                 .alone();
    }
  std::string edges;
  const auto  add = [&](const double side)
  {
    for (const std::array<int, 2> &edge : shapes.edges)
    {
      const PlaneVector &a = shape.points[static_cast<std::size_t>(edge[0])];
      const PlaneVector &b = shape.points[static_cast<std::size_t>(edge[1])];
      edges += "M" + place({side * a.x, a.y}) + "L" + place({side * b.x, b.y});
    }
  };
  add(1);
  if (half)
    add(-1);
  svg += SvgTag("path")
             .set("d", edges)
             .add("fill=\"none\" stroke=\"#1a2028\" stroke-linecap=\"round\"")
             .set("stroke-width", 1.8 * line)
             .alone();
  for (const std::size_t i : marks)
    for (const double side : half ? std::vector<double>{1, -1} : std::vector<double>{1})
    {
      const PlaneVector p = {side * shape.points[i].x, shape.points[i].y};
      svg += SvgTag("circle")
                 .set("class", "mark")
                 .centre(p.x, -p.y)
                 .set("r", 7 * line)
                 .add("fill=\"none\" stroke=\"#a3220f\"")
                 .set("stroke-width", 3 * line)
                 .alone();
    }
  return svg + "</svg>\n";
}
} // namespace throughbend
