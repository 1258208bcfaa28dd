#include "postprocess/shape_scale.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// The next larger 1, 1.5, 2, 2.5, 3, 4, 5, 6 or 8 times a power of ten.
double round_up(const double value)
{
  if (!(value > 0))
    return 0.01;
  const double power = std::pow(10, std::floor(std::log10(value)));
  for (const double step : {1., 1.5, 2., 2.5, 3., 4., 5., 6., 8.})
    if (step * power >= value * (1 - 1e-9))
      return step * power;
  return 10 * power;
}
/// The part of the plane that holds these shapes and the tools about them.
void frame_about(const std::vector<const Shape *> &shown, const PassShapes &shapes,
                 ShapeScale &scale)
{
  bool       first = true;
  const auto take  = [&](const Vec2 p)
  {
    scale.low  = first ? p : Vec2{std::min(scale.low.x, p.x), std::min(scale.low.y, p.y)};
    scale.high = first ? p : Vec2{std::max(scale.high.x, p.x), std::max(scale.high.y, p.y)};
    first      = false;
  };
  for (const Shape *shape : shown)
    for (const Vec2 &p : shape->points)
      take(p);
  // Frame plates reach far above and below: of those as much as tells what they are.
  const double top = scale.high.y, length = scale.high.x - std::min(0., scale.low.x),
               bottom = scale.low.y - 0.5 * length;
  for (const ToolShape &tool : shapes.tools)
    if (!tool.is_plunger)
      for (const Vec2 &p : tool.outline)
        take({p.x, std::clamp(p.y, bottom, top)});
  if (shapes.extent == Extent::right_half)
    take({-scale.high.x, scale.low.y});

  const double margin = 0.03 * (scale.high.x - scale.low.x);
  scale.low           = scale.low - Vec2{margin, margin};
  scale.high          = scale.high + Vec2{margin, 3 * margin}; // the plunger's body above
}
} // namespace

ShapeScale shape_scale(const PassShapes &shapes)
{
  ShapeScale                 scale;
  double                     axial = 0, plastic = 0;
  std::vector<const Shape *> shown;
  for (const Shape &shape : shapes.shapes)
  {
    shown.push_back(&shape);
    for (const double strain : shape.axial_strain)
      axial = std::max(axial, std::abs(strain));
    for (const double strain : shape.plastic_strain)
      plastic = std::max(plastic, strain);
  }
  frame_about(shown, shapes, scale);
  scale.largest_axial   = round_up(axial);
  scale.largest_plastic = round_up(plastic);
  return scale;
}

ShapeScale closer_scale(const PassShapes &shapes, const Shape &shape)
{
  ShapeScale scale = shape_scale(shapes);
  frame_about({&shape}, shapes, scale);
  return scale;
}
} // namespace throughbend
