#include "postprocess/pictures/strain_picture.h"

#include "inputs/units/display_units.h"
#include "postprocess/pictures/raster.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr Colour paper = {255, 255, 255}, steel = {207, 211, 216}, ink = {26, 32, 40},
                 rim = {107, 114, 124};

constexpr int width = 820, heading_height = 54, legend_height = 84;

/// From the plane of the pass to pixels.
struct Window
{
  double      scale = 1;
  PlaneVector low, high;

  PlaneVector to_pixels(const PlaneVector p) const
  {
    return {(p.x - low.x) * scale, heading_height + (high.y - p.y) * scale};
  }
};

void draw_tools(Raster &picture, const PassShapes &shapes, const Shape &shape,
                const Window &window)
{
  for (const DrawnTool &tool : shapes.tools)
    for (const double side : {1., -1.})
    {
      if (side < 0 && shapes.part == ModelPart::whole)
        continue;
      std::vector<PlaneVector> outline;
      for (const PlaneVector &p : tool.outline)
      {
        PlaneVector at = {side * p.x, p.y - (tool.is_plunger ? shape.travel : 0)};
        outline.push_back(window.to_pixels(at));
      }
      picture.fill(outline, steel);
      for (std::size_t i = 0; i < outline.size(); ++i)
        picture.line(outline[i], outline[(i + 1) % outline.size()], 1.4, rim);
    }
}

void draw_coupon(Raster &picture, const PassShapes &shapes, const Shape &shape,
                 const Window &window, const double largest)
{
  const auto colour = [&](const double strain)
  { return colour_at(ColourMap::diverging, (strain / largest + 1) / 2); };
  for (const double side : {1., -1.})
  {
    if (side < 0 && shapes.part == ModelPart::whole)
      continue;
    const auto at = [&](const int point)
    {
      const PlaneVector p = shape.points[static_cast<std::size_t>(point)];
      return window.to_pixels({side * p.x, p.y});
    };
    const auto strain = [&](const int point)
    { return shape.axial_strain[static_cast<std::size_t>(point)]; };
    for (const std::array<int, 4> &c : shapes.cells)
      for (const std::array<int, 3> &t :
           {std::array<int, 3>{c[0], c[1], c[2]}, std::array<int, 3>{c[0], c[2], c[3]}})
        picture.fill({at(t[0]), at(t[1]), at(t[2])},
                     {strain(t[0]), strain(t[1]), strain(t[2])}, colour);
    for (const auto &[a, b] : shapes.edges)
      picture.line(at(a), at(b), 1.6, ink);
  }
}

void draw_legend(Raster &picture, const int top, const ShapeScale &scale)
{
  const double largest = scale.largest_axial;
  const double left = 210, right = 610, high = top + 28., low = top + 46.;
  for (int x = 0; x < static_cast<int>(right - left); ++x)
    picture.fill(
        {{left + x, high}, {left + x + 1, high}, {left + x + 1, low}, {left + x, low}},
        colour_at(ColourMap::diverging, x / (right - left)));
  for (int i = -2; i <= 2; ++i)
  {
    const double strain = largest * i / 2, x = (left + right) / 2 + i * (right - left) / 4;
    picture.line({x, low}, {x, low + 5}, 1, ink);
    picture.text((i > 0 ? "+" : "") + decimal_text(strain, largest < 0.1 ? 3 : 2),
                 {x, low + 26}, 18, Anchor::middle, ink);
  }
  picture.text("squeezed", {left - 14, low - 2}, 18, Anchor::right, ink);
  picture.text("stretched", {right + 14, low - 2}, 18, Anchor::left, ink);
  const std::string what = "strain along the coupon, logarithmic";
  picture.text(scale.short_at_flaws ? what + "; beside a flaw more than the map has" : what,
               {(left + right) / 2, high - 9}, 18, Anchor::middle, ink);
}
} // namespace

std::string strain_picture(const PassShapes &shapes, const Shape &shape,
                           const ShapeScale &scale, const std::string &heading)
{
  Window    window{width / (scale.high.x - scale.low.x), scale.low, scale.high};
  const int drawn =
      std::clamp(static_cast<int>(std::lround(window.scale * (scale.high.y - scale.low.y))),
                 120, 2000);
  const int height = heading_height + drawn + legend_height;

  Raster picture(width, height, paper);
  if (shape.hold == Loading::loaded) // a released coupon is taken out of its tools
    draw_tools(picture, shapes, shape, window);
  draw_coupon(picture, shapes, shape, window, scale.largest_axial);
  const auto band = [&](const double from, const double to) {
    picture.fill({{0, from}, {width, from}, {width, to}, {0, to}}, paper);
  };
  band(0, heading_height); // what reaches beyond the window
  band(heading_height + drawn, height);
  picture.text(heading, {width / 2., 36}, 22, Anchor::middle, ink);
  draw_legend(picture, heading_height + drawn, scale);
  return picture.png();
}
} // namespace throughbend
