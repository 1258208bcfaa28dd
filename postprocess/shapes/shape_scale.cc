#include "postprocess/shapes/shape_scale.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// Of each point, whether it lies beside a flaw; empty without any.
std::vector<bool> beside_flaws(const PassShapes &shapes)
{
  std::vector<PlaneVector> lips;
  double                   low = 1e300, high = -1e300;
  for (std::size_t i = 0; i < shapes.flat.size(); ++i)
    if (shapes.lip[i] != 0)
    {
      lips.push_back(shapes.flat[i]);
      low  = std::min(low, lips.back().y);
      high = std::max(high, lips.back().y);
    }
  if (lips.empty())
    return {};
  std::vector<bool> beside;
  for (const PlaneVector &point : shapes.flat)
    beside.push_back(std::any_of(lips.begin(), lips.end(),
                                 [&](const PlaneVector &lip)
                                 { return length(point - lip) < (high - low) / 2; }));
  return beside;
}

/// The part of the plane that holds these shapes and the tools about them.
void frame_about(const std::vector<const Shape *> &shown, const PassShapes &shapes,
                 ShapeScale &scale)
{
  bool       first = true;
  const auto take  = [&](const PlaneVector p)
  {
    scale.low =
        first ? p : PlaneVector{std::min(scale.low.x, p.x), std::min(scale.low.y, p.y)};
    scale.high =
        first ? p : PlaneVector{std::max(scale.high.x, p.x), std::max(scale.high.y, p.y)};
    first = false;
  };
  bool in_tools = false;
  for (const Shape *shape : shown)
  {
    in_tools = in_tools || shape->hold == Loading::loaded;
    for (const PlaneVector &p : shape->points)
      take(p);
  }
  // Frame plates and deep shoulders reach far above and below the coupon: of those as much
  // as tells what they are.
  const double top = scale.high.y, length = scale.high.x - std::min(0., scale.low.x),
               bottom = scale.low.y - 0.1 * length;
  for (const DrawnTool &tool : shapes.tools)
    if (in_tools && !tool.is_plunger)
      for (const PlaneVector &p : tool.outline)
        take({p.x, std::clamp(p.y, bottom, top)});
  if (shapes.part == ModelPart::right_half)
    take({-scale.high.x, scale.low.y});

  const double margin = 0.03 * (scale.high.x - scale.low.x);
  scale.low           = scale.low - PlaneVector{margin, margin};
  // Above, the plunger has a body.
  scale.high = scale.high + PlaneVector{margin, in_tools ? 3 * margin : margin};
}
} // namespace

double colour_end(const double value)
{
  if (!(value > 0))
    return 0.01;
  const double power = std::pow(10, std::floor(std::log10(value)));
  for (const double step : {1., 1.5, 2., 2.5, 3., 4., 5., 6., 8.})
    if (step * power >= value * (1 - 1e-9))
      return step * power;
  return 10 * power;
}

ShapeScale shape_scale(const PassShapes &shapes)
{
  ShapeScale                 scale;
  double                     axial = 0, plastic = 0;
  const std::vector<bool>    beside = beside_flaws(shapes);
  std::vector<const Shape *> shown;
  scale.short_at_flaws = !beside.empty();
  for (const Shape &shape : shapes.shapes)
  {
    shown.push_back(&shape);
    for (std::size_t i = 0; i < shape.axial_strain.size(); ++i)
      if (beside.empty() || !beside[i])
      {
        axial   = std::max(axial, std::abs(shape.axial_strain[i]));
        plastic = std::max(plastic, shape.plastic_strain[i]);
      }
  }
  frame_about(shown, shapes, scale);
  scale.largest_axial   = colour_end(axial);
  scale.largest_plastic = colour_end(plastic);
  return scale;
}

ShapeScale level_scale(const ShapeScale &all, const PassShapes &shapes, const Shape &shape)
{
  ShapeScale       scale = all;
  const ShapeScale own   = closer_scale(shapes, shape);
  scale.low.y            = std::max(all.low.y, own.low.y);
  scale.high.y           = std::min(all.high.y, own.high.y);
  return scale;
}

ShapeScale closer_scale(const PassShapes &shapes, const Shape &shape)
{
  ShapeScale scale = shape_scale(shapes);
  frame_about({&shape}, shapes, scale);
  return scale;
}
} // namespace throughbend
