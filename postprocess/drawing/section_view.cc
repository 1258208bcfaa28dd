#include "postprocess/drawing/fixture_views.h"

#include "meshes/setup/fixture_profiles.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double pi       = 3.14159265358979323846;
constexpr double plate_in = 9;  // of a frame plate that is shown [mm on paper]
constexpr double row      = 10; // from one row of dimensions to the next [mm]

/// Draws one section; the heights and places of its parts on paper are kept between steps.
class Section
{
public:
  Section(const DrawnFixture &drawn, double scale) : drawn_(drawn) { view_.scale = scale; }

  View drawn()
  {
    lay_out();
    draw_tools();
    draw_coupon();
    draw_further_down();
    view_.marks.use(Layer::dimensions);
    dimension_plunger();
    dimension_frame();
    dimension_thickness();
    dimension_shoulders();
    draw_plan();
    return view_;
  }

private:
  const Fixture &fixture() const { return drawn_.shape.fixture; }
  const Coupon  &coupon() const { return drawn_.shape.coupon; }
  bool           framed() const { return fixture().frame.present(); }
  double         s() const { return view_.scale; }

  void lay_out()
  {
    const Frame &frame  = fixture().frame;
    const double shaft  = framed() ? 18 : 14; // of straight flank that is shown
    plunger_cut_        = drawn_.touch() + fixture().plunger.nose_radius + shaft / s();
    plunger_row_        = -s() * plunger_cut_ - 6.5;
    plate_top_          = coupon().thickness + frame.clearance_above + plate_in / s();
    coupon_left_        = s() * (coupon().offset - coupon().length / 2);
    coupon_right_       = s() * (coupon().offset + coupon().length / 2);
    const double plates = s() * drawn_.plates_outside();
    const double tools  = std::max(s() * drawn_.shoulder_outside(), plates);
    left_               = std::min(coupon_left_, -tools);
    right_              = std::max(coupon_right_, tools);
    // The nose further down, low enough for legs that stand upright between the shoulders.
    down_nose_ = -fixture().shoulders.radius - fixture().plunger.nose_radius;
    lowest_    = s() * std::max(-drawn_.shoulder_bottom(), coupon().thickness - down_nose_);
    opening_row_ = lowest_ + 8;
    if (framed()) // a text beside the arrows stays clear of the plates
      opening_row_ = std::max(opening_row_, s() * fixture().frame.clearance_below +
                                                plate_in + over_line + 2);
    last_row_ = opening_row_;
  }

  void draw_tools()
  {
    const Outline plunger =
        outline_of(plunger_profile(fixture().plunger, drawn_.touch(), 40 / s()));
    draw_section(view_, Layer::plunger, cut_off(plunger, {0, 1}, plunger_cut_), pi / 4);
    for (const Side side : {Side::left, Side::right})
    {
      draw_section(view_, Layer::shoulders, outline_of(shoulder_profile(fixture(), side)),
                   -pi / 4);
      if (!framed())
        continue;
      const double bottom = fixture().frame.clearance_below + plate_in / s();
      for (const RigidProfile &plate :
           frame_profiles(fixture().frame, coupon().thickness, side))
        draw_section(
            view_, Layer::frame,
            cut_off(cut_off(outline_of(plate), {0, 1}, plate_top_), {0, -1}, bottom),
            pi / 4);
    }
    view_.marks.use(Layer::centre);
    view_.marks.line({0, plunger_row_ + 5.2}, {0, opening_row_ - 4.2}, Pen::centre);
    if (drawn_.rollers())
      for (const double side : {-1., 1.})
        draw_roller_centre(side);
  }

  void draw_roller_centre(double side)
  {
    const double      radius = fixture().shoulders.radius, reach = s() * radius + 1.5;
    const PlaneVector at =
        on_paper(view_, {side * (fixture().shoulders.opening / 2 + radius), -radius});
    view_.marks.line(at - PlaneVector{reach, 0}, at + PlaneVector{reach, 0}, Pen::centre);
    view_.marks.line(at - PlaneVector{0, std::min(reach, s() * radius)},
                     at + PlaneVector{0, reach}, Pen::centre);
  }

  void draw_coupon()
  {
    const double      left = coupon_left_ / s(), right = coupon_right_ / s();
    const double      low = drawn_.rest, high = drawn_.touch();
    const PlaneVector a = {left, low}, b = {right, low}, c = {right, high},
                      d = {left, high};
    draw_section(view_, Layer::coupon,
                 {{a, b, 0, {}, false},
                  {b, c, 0, {}, false},
                  {c, d, 0, {}, false},
                  {d, a, 0, {}, false}},
                 pi / 4, 1.2);
  }

  /// Plunger and bent coupon on their way, as far as they stand under the flat coupon.
  void draw_further_down()
  {
    const Plunger &plunger = fixture().plunger;
    const double   top     = -s() * drawn_.rest + 1.2;
    view_.marks.use(Layer::later);
    for (const double out : {0., coupon().thickness})
    {
      const double radius = s() * (plunger.nose_radius + out);
      const double x      = s() * (plunger.width / 2 + out);
      const double bottom = -s() * down_nose_ + s() * out, arc_end = bottom - radius;
      const double flat = x - radius;
      const double up   = std::min(top, arc_end - 1);
      Sheet       &m    = view_.marks;
      m.line({-x, up}, {-x, arc_end}, Pen::phantom);
      m.stroke({{-x, arc_end}, {-flat, bottom}, radius, false, Pen::phantom});
      if (flat > 1e-6)
        m.line({-flat, bottom}, {flat, bottom}, Pen::phantom);
      m.stroke({{flat, bottom}, {x, arc_end}, radius, false, Pen::phantom});
      m.line({x, arc_end}, {x, up}, Pen::phantom);
    }
  }

  void dimension_plunger()
  {
    const Plunger      &plunger = fixture().plunger;
    const double        half    = s() * plunger.width / 2;
    const DimensionText width   = drawn_.dimension("A", plunger.width);
    draw(view_.marks,
         LevelDimension{-half, half, plunger_row_, -s() * plunger_cut_,
                        framed() ? s() * drawn_.plates_outside() + 2 : -1e30},
         width);
    view_.note(width, {-half, plunger_row_}, {half, plunger_row_});

    const DimensionText nose   = drawn_.dimension("B", plunger.nose_radius, "R");
    const double        radius = s() * plunger.nose_radius;
    const PlaneVector   centre = {half - radius,
                                  -s() * (drawn_.touch() + plunger.nose_radius)};
    const double        past   = -10 * pi / 180; // below level
    const PlaneVector out = {std::cos(past), -std::sin(past)}, tip = centre + radius * out;
    PlaneVector       knee       = tip + 5 * out;
    const double      free_above = -s() * drawn_.touch() - under_line - 0.6;
    Leader            leader{tip, knee, Beside::after, 0};
    leader.knee.y = std::min(knee.y, free_above);
    if (framed())
    {
      const double plate   = s() * fixture().frame.distance;
      const double outside = s() * drawn_.plates_outside();
      if (knee.x + nose.width() + 3 > plate)
      {
        leader.knee.y   = std::min(leader.knee.y, -s() * plate_top_ - 5.5);
        leader.clear_of = outside + 1 - leader.knee.x;
      }
    }
    draw(view_.marks, leader, nose);
    nose_text_end_ = leader.knee.x + leader.clear_of + nose.width() + 2;
    view_.note(nose, centre, tip);
  }

  void dimension_frame()
  {
    if (!framed())
      return;
    const Frame        &frame = fixture().frame;
    const double        in = s() * frame.distance, out = s() * drawn_.plates_outside();
    const double        line = plunger_row_ - row, edge = -s() * plate_top_;
    const DimensionText between = drawn_.dimension("H", frame.distance, "2 x ");
    const DimensionText plate   = drawn_.dimension("J", frame.plate_thickness);
    draw(view_.marks, LevelDimension{-in, in, line, edge, out + 2}, between);
    view_.note(between, {-in, line}, {in, line});
    // Both texts beside their lines would meet.
    const double plate_line = 2 * in < between.width() + 4 ? line - row : line;
    draw(view_.marks, LevelDimension{in, out, plate_line, edge}, plate);
    view_.note(plate, {in, plate_line}, {out, plate_line});

    const double above = -s() * (coupon().thickness + frame.clearance_above);
    const double below = s() * frame.clearance_below;
    draw(view_.marks,
         Leader{{-out, (above - s() * coupon().thickness) / 2},
                {-out - 3, above - 11},
                Beside::before},
         drawn_.dimension("K", frame.clearance_above));
    draw(view_.marks, Leader{{-out, below / 2}, {-out - 3, below + 11}, Beside::before},
         drawn_.dimension("M", frame.clearance_below));
    under_left_ = below + 11 + under_line;
  }

  void dimension_thickness()
  {
    const DimensionText thickness = drawn_.dimension("t", coupon().thickness);
    const double        line      = left_ - 7;
    const double        from = -s() * drawn_.touch(), to = -s() * drawn_.rest;
    draw(view_.marks,
         UprightDimension{from, to, line, coupon_left_, coupon_left_, Beside::before},
         thickness);
    view_.note(thickness, {line, from}, {line, to});
    under_left_ = std::max(under_left_, to + 6.5);
  }

  void dimension_shoulders()
  {
    const Shoulders    &shoulders = fixture().shoulders;
    const double        half      = s() * shoulders.opening / 2;
    const DimensionText opening   = drawn_.dimension("C", shoulders.opening);
    draw(view_.marks,
         LevelDimension{-half, half, opening_row_,
                        -s() * (drawn_.rollers() ? arc_end_level(shoulders)
                                                 : last_tangent_level(shoulders))},
         opening);
    view_.note(opening, {-half, opening_row_}, {half, opening_row_});
    dimension_shoulder_radius();
    if (drawn_.rollers())
      return;
    dimension_wall_end();
    if (!drawn_.depth_known)
      return;
    const DimensionText depth  = drawn_.dimension("F", shoulders.depth);
    const double        bottom = s() * shoulders.depth;
    const double        line   = std::max(right_ + 7, bottom < 10 ? nose_text_end_ : -1e30);
    draw(view_.marks,
         UprightDimension{0, bottom, line, coupon_right_, s() * drawn_.shoulder_outside(),
                          Beside::after},
         depth);
    view_.note(depth, {line, 0}, {line, bottom});
  }

  /// The leader lies on a ray through the arc's centre, down and out on the left.
  void dimension_shoulder_radius()
  {
    const Shoulders &shoulders = fixture().shoulders;
    if (!drawn_.radius_known)
      return;
    const DimensionText text   = drawn_.dimension("E", shoulders.radius, "R");
    const double        radius = s() * shoulders.radius;
    const PlaneVector centre = {-s() * (shoulders.opening / 2 + shoulders.radius), radius};
    // Steep enough to pass under what is already written on the left.
    const double plates = s() * drawn_.plates_outside() + 3;
    const double slope =
        framed() ? std::clamp((under_left_ + 1 - centre.y) / (plates + centre.x), 1., 6.)
                 : 1.;
    const PlaneVector ray    = (1 / std::hypot(1, slope)) * PlaneVector{-1, slope};
    const double      beside = s() * drawn_.shoulder_outside() + 3;
    const double      along =
        std::max({(beside + centre.x) / -ray.x,
                  (under_left_ + over_line + 0.5 - centre.y) / ray.y, radius + 5});
    const PlaneVector knee = centre + along * ray;
    const PlaneVector tip  = centre + (drawn_.rollers() ? radius : -radius) * ray;
    draw(view_.marks, Leader{tip, knee, Beside::before, 0}, text);
    view_.note(text, centre, tip);
    under_left_ = knee.y + under_line;
    last_row_   = std::max(last_row_, knee.y);
  }

  void dimension_wall_end()
  {
    const Shoulders &shoulders = fixture().shoulders;
    const double     radius    = s() * shoulders.bottom_radius;
    if (!drawn_.depth_known || radius <= 0)
      return;
    const DimensionText text   = drawn_.dimension("G", shoulders.bottom_radius, "R");
    const PlaneVector   centre = {-s() * shoulders.opening / 2 - radius,
                                  s() * shoulders.depth - radius};
    const double        steep  = 80 * pi / 180;
    const PlaneVector   out    = {std::cos(steep), std::sin(steep)};
    const PlaneVector   tip    = centre + radius * out;
    const double y = std::max(s() * shoulders.depth + 7, under_left_ + over_line + 0.5);
    const PlaneVector knee = {tip.x - 1, y};
    draw(view_.marks, Leader{tip, knee, Beside::before, 0}, text);
    view_.note(text, centre, tip);
    last_row_ = std::max(last_row_, y);
  }

  void draw_plan()
  {
    if (!drawn_.length_known && !drawn_.width_known)
      return;
    const double half = s() * (drawn_.width_known ? coupon().width : 20) / 2;
    const double top = last_row_ + under_line + 6, bottom = top + 2 * half;
    Sheet       &m = view_.marks;
    m.text({(coupon_left_ + coupon_right_) / 2 + 2, top - 1.6}, Anchor::left,
           "Coupon from above");
    m.use(Layer::coupon_plan);
    m.rectangle({{coupon_left_, top}, {coupon_right_, bottom}}, Pen::outline);
    m.use(Layer::centre);
    m.line({coupon_left_ - 2, top + half}, {coupon_right_ + 2, top + half}, Pen::centre);
    const double middle = (coupon_left_ + coupon_right_) / 2;
    m.line({middle, top - 4}, {middle, bottom + 2}, Pen::centre);
    m.use(Layer::dimensions);
    if (drawn_.length_known)
    {
      const DimensionText text = drawn_.dimension("L", coupon().length);
      const double        line = bottom + 7;
      draw(m, LevelDimension{coupon_left_, coupon_right_, line, bottom}, text);
      view_.note(text, {coupon_left_, line}, {coupon_right_, line});
    }
    if (drawn_.width_known)
    {
      const DimensionText text = drawn_.dimension("W", coupon().width);
      const double        line = coupon_left_ - 7;
      draw(m,
           UprightDimension{top, bottom, line, coupon_left_, coupon_left_, Beside::before},
           text);
      view_.note(text, {line, top}, {line, bottom});
    }
  }

  const DrawnFixture &drawn_;
  View                view_;
  double plunger_cut_ = 0, plate_top_ = 0, down_nose_ = 0; // heights in the world
  double plunger_row_ = 0, opening_row_ = 0, last_row_ = 0, lowest_ = 0; // y on paper
  double nose_text_end_ = 0;                                             // x on paper
  double under_left_    = 0; // y on paper, below what is written left of the shoulders
  double left_ = 0, right_ = 0, coupon_left_ = 0, coupon_right_ = 0; // x on paper
};
} // namespace

View section_view(const DrawnFixture &drawn, const double scale)
{
  return Section(drawn, scale).drawn();
}
} // namespace throughbend
