#include "postprocess/drawing/fixture_views.h"

#include "meshes/setup/fixture_profiles.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double pi       = 3.14159265358979323846;
constexpr double next_row = 10.5; // from one row of dimensions to the next [mm]

/// Where the view ends: a thin line with a kink in its middle.
void draw_break(Sheet &sheet, const PlaneVector from, const PlaneVector to)
{
  const double span = length(to - from);
  if (span < 5)
  {
    sheet.line(from, to);
    return;
  }
  const PlaneVector along = (1 / span) * (to - from), across = {-along.y, along.x};
  const PlaneVector middle = 0.5 * (from + to);
  const PlaneVector a = middle - 0.7 * along, d = middle + 0.7 * along;
  const PlaneVector b = middle - 0.35 * along + 1.2 * across;
  const PlaneVector c = middle + 0.35 * along - 1.2 * across;
  sheet.line(from, a);
  sheet.line(a, b);
  sheet.line(b, c);
  sheet.line(c, d);
  sheet.line(d, to);
}

/// What of an outline lies within the window.
Outline within(Outline outline, const PlaneVector low, const PlaneVector high)
{
  outline = cut_off(outline, {1, 0}, high.x);
  outline = cut_off(outline, {-1, 0}, -low.x);
  outline = cut_off(outline, {0, 1}, high.y);
  return cut_off(outline, {0, -1}, -low.y);
}
} // namespace

void View::note(const DimensionText &text, const PlaneVector from, const PlaneVector to)
{
  dimensions.push_back({text, from, to, scale});
}

void draw_section(View &view, const Layer layer, const Outline &outline,
                  const double hatch_angle, const double hatch_spacing)
{
  view.marks.use(Layer::hatching);
  for (const auto &[from, to] :
       hatch_lines(outline, hatch_angle, hatch_spacing / view.scale))
    view.marks.line(on_paper(view, from), on_paper(view, to));
  for (const OutlinePiece &piece : outline)
  {
    const PlaneVector from = on_paper(view, piece.from), to = on_paper(view, piece.to);
    view.marks.use(piece.cut ? Layer::breaks : layer);
    if (piece.cut)
      draw_break(view.marks, from, to);
    else
      view.marks.stroke({from, to, view.scale * piece.radius, false, Pen::outline});
  }
}

View leg_view(const DrawnFixture &drawn, const double scale)
{
  constexpr double tall = 24, margin = 9; // of tools that are shown [mm on paper]
  View             view;
  view.scale             = scale;
  const Fixture &fixture = drawn.shape.fixture;
  const double   flank   = fixture.plunger.width / 2;
  const double   wall    = fixture.shoulders.opening / 2;
  const double   leg     = flank + drawn.shape.coupon.thickness;
  const double   tight_at =
      drawn.rollers()
            ? arc_end_level(fixture.shoulders)
            : (arc_end_level(fixture.shoulders) + last_tangent_level(fixture.shoulders)) / 2;
  const double      half = tall / 2 / scale;
  const PlaneVector low  = {flank - margin / scale, tight_at - half};
  const PlaneVector high = {std::max(wall, leg) + margin / scale, tight_at + half};

  Plunger passed     = fixture.plunger;
  passed.nose_radius = 0.1 * passed.width; // far below the window, whatever it is
  draw_section(view, Layer::plunger,
               within(outline_of(plunger_profile(passed, low.y - 2 * passed.width,
                                                 4 * passed.width + 4 * half)),
                      low, high),
               pi / 4);
  draw_section(view, Layer::shoulders,
               within(outline_of(shoulder_profile(fixture, Side::right)), low, high),
               -pi / 4);
  const PlaneVector a = {flank, low.y}, b = {leg, low.y}, c = {leg, high.y},
                    d = {flank, high.y};
  draw_section(view, Layer::coupon,
               {{a, b, 0, {}, true},
                {b, c, 0, {}, false},
                {c, d, 0, {}, true},
                {d, a, 0, {}, false}},
               -pi / 4 + (drawn.clearance() < 0 ? pi / 2 : 0.), 1.4);

  view.marks.use(Layer::dimensions);
  // The room above, what fills it below; what is too much stands above the room again.
  const double x_flank = scale * flank, x_wall = scale * wall, x_leg = scale * leg;
  const double top = -scale * high.y, bottom = -scale * low.y;
  const double room_row = top - 7, leg_row = bottom + 6;
  const bool   pinched = x_leg > x_wall;

  const DimensionText room = drawn.dimension("P", drawn.pinch());
  draw(view.marks,
       LevelDimension{x_flank, x_wall, room_row, top, std::max(x_leg, x_wall) + 2}, room);
  view.note(room, {x_flank, room_row}, {x_wall, room_row});
  const DimensionText thickness = drawn.dimension("t", drawn.shape.coupon.thickness);
  draw(view.marks,
       LevelDimension{x_flank, x_leg, leg_row, bottom, std::max(x_leg, x_wall) + 2},
       thickness);
  view.note(thickness, {x_flank, leg_row}, {x_leg, leg_row});
  const DimensionText play =
      drawn.dimension("S", std::abs(drawn.clearance()), pinched ? "-" : "");
  if (play.value * scale > 0.05)
  {
    const double from = std::min(x_leg, x_wall), to = std::max(x_leg, x_wall);
    const double line = pinched ? room_row - next_row : leg_row + next_row;
    draw(view.marks, LevelDimension{from, to, line, pinched ? top : bottom}, play);
    view.note(play, {from, line}, {to, line});
  }
  return view;
}
} // namespace throughbend
