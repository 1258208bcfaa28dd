#include "postprocess/card/card_sketch.h"

#include "inputs/units/display_units.h"
#include "meshes/setup/fixture_profiles.h"
#include "postprocess/html/svg_tag.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double arc_piece = 0.05; // [rad], looks round

/// What is seen [mm], y up.
struct View
{
  double left, right, low, high;
};

View view_of(const Case &c)
{
  const Shoulders &s    = c.fixture.shoulders;
  const double     half = c.fixture.frame.present()
                              ? c.fixture.frame.distance + c.fixture.frame.plate_thickness
                              : std::max(s.opening / 2 + 2 * s.radius, c.coupon.length / 2);
  const double     deep = s.kind == ShoulderKind::solid ? s.depth : 2 * s.radius;
  return {-1.04 * half, 1.04 * half, -1.05 * deep,
          c.coupon.thickness + 0.9 * c.fixture.plunger.width};
}

/// Of points with y up; SVG has it down. Clipped to the view above and below.
std::string points_text(const std::vector<PlaneVector> &points, const View &view)
{
  std::string text;
  for (const PlaneVector &p : points)
    text += (text.empty() ? "" : " ") + svg_number(p.x) + "," +
            svg_number(-std::clamp(p.y, view.low, view.high));
  return text;
}

std::string body(const RigidProfile &profile, const View &view, const std::string &kind)
{
  return SvgTag("polygon")
      .set("class", kind)
      .set("points", points_text(profile.outline(arc_piece), view))
      .alone();
}

/// The quarter of a shoulder's round over which the coupon is drawn.
std::string greased_round(const Shoulders &s, const double side, const View &view)
{
  std::vector<PlaneVector> points;
  const double             right_angle = 3.14159265358979323846 / 2;
  for (int i = 0; i <= 24; ++i)
  {
    const double a = right_angle * i / 24;
    points.push_back({side * (s.opening / 2 + s.radius * (1 - std::sin(a))),
                      -s.radius * (1 - std::cos(a))});
  }
  return SvgTag("polyline")
      .set("class", "grease")
      .set("points", points_text(points, view))
      .alone();
}
} // namespace

std::string card_sketch(const Case &c)
{
  const View   view = view_of(c);
  const double tall = view.high - view.low, wide = view.right - view.left;
  const double top = c.coupon.thickness;

  std::string svg = "<svg class=\"sketch\" viewBox=\"" + svg_number(view.left) + " " +
                    svg_number(-view.high) + " " + svg_number(wide) + " " +
                    svg_number(tall) +
                    "\" role=\"img\" aria-label=\"The fixture from the side; thick lines "
                    "show where grease belongs\">\n";
  for (const Side side : {Side::left, Side::right})
  {
    svg += body(shoulder_profile(c.fixture, side), view, "tool");
    if (c.fixture.frame.present())
      for (const RigidProfile &plate : frame_profiles(c.fixture.frame, top, side))
        svg += body(plate, view, "tool");
  }
  svg += body(plunger_profile(c.fixture.plunger, top, 4 * tall), view, "tool");
  const double half = c.coupon.length / 2, x = c.coupon.offset;
  svg +=
      SvgTag("polygon")
          .set("class", "coupon")
          .set("points",
               points_text({{x - half, 0}, {x + half, 0}, {x + half, top}, {x - half, top}},
                           view))
          .alone();
  for (const double side : {-1., 1.})
    svg += greased_round(c.fixture.shoulders, side, view);
  return svg + "</svg>\n";
}
} // namespace throughbend
