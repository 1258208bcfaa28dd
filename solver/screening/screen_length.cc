// Section length: support, frame, legs, offset, weld, stroke.

#include "inputs/units/display_units.h"
#include "meshes/coupon/weld_shape.h"
#include "solver/screening/length_needed.h"
#include "solver/screening/margins.h"
#include "solver/screening/screen_parts.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double degree = 3.14159265358979323846 / 180; // [rad]

// The lines on length, support, frame and offset ask one question with one criterion, so
// that they cannot contradict each other: `ok` where the coupon, laid by eye as much
// further off centre as happens, keeps its support until the legs are formed and stays
// inside the frame; `close` where that holds only for where it is said to lie, or until the
// legs are nearly formed, or where its ends reach into the frame's openings and slip out
// again.

/// How far off centre it lies at most [mm].
double laid_at_most(const Case &c)
{
  return std::abs(c.coupon.offset) + margins::laid_by_eye * c.coupon.thickness;
}

Verdict support_verdict(const Case &c)
{
  if (laid_at_most(c) <= offset_for_support(c, margins::formed_angle * degree))
    return Verdict::ok;
  return std::abs(c.coupon.offset) <=
                 offset_for_support(c, margins::nearly_formed_angle * degree)
             ? Verdict::close
             : Verdict::no;
}

Verdict frame_verdict(const Case &c)
{
  if (laid_at_most(c) <= offset_for_frame(c))
    return Verdict::ok;
  return frame_reach(c) == FrameReach::catches ? Verdict::no : Verdict::close;
}

Verdict worse(const Verdict a, const Verdict b)
{
  return a == Verdict::no || b == Verdict::no         ? Verdict::no
         : a == Verdict::close || b == Verdict::close ? Verdict::close
                                                      : Verdict::ok;
}

ScreenLine needed_line(const Case &c)
{
  ScreenLine line;
  line.key      = "length_needed";
  line.quantity = "length needed";
  line.value    = 2 * (side_needed(c, margins::formed_angle * degree) + laid_at_most(c));
  line.against  = {"coupon", c.coupon.length, Measure::length};
  line.verdict  = support_verdict(c);
  line.formula  = {
       "2 ((B + t/2) b + (L0 - Q sin b) / cos b + offset + 0.15 t)",
       "straight-leg statics; geometry as in Troive (2017), abstract read; 0.15 t: laid "
        "by eye, common practice, no source",
       "straight legs, support kept until they are 85 deg from flat (close: 75); a "
        "curved leg needs up to 0.2 t more or less"};
  return line;
}

ScreenLine support_line(const Case &c)
{
  Case laid          = c;
  laid.coupon.offset = laid_at_most(c);
  ScreenLine line;
  line.key      = "support_lost";
  line.quantity = "legs when an end loses support";
  line.measure  = Measure::angle;
  line.value    = support_lost_angle(laid) / degree;
  if (line.value <= 0)
    line.shown = "an end lies inside a shoulder's round";
  line.against = {"counts as formed at", margins::formed_angle, Measure::angle, " or more"};
  line.verdict = support_verdict(c);
  line.formula = {"b where side = (B + t/2) b + (L0 - Q sin b) / cos b",
                  "straight-leg statics; geometry as in Troive (2017), abstract read",
                  "straight legs; of the shorter side, laid off centre by eye by 0.15 t"};
  return line;
}

ScreenLine frame_line(const Case &c)
{
  ScreenLine line;
  line.key               = "frame_length";
  line.quantity          = "longest inside the frame";
  line.value             = 2 * (c.fixture.frame.distance - laid_at_most(c));
  line.against           = {"coupon", c.coupon.length, Measure::length};
  const FrameReach reach = frame_reach(c);
  line.verdict           = frame_verdict(c);
  line.note              = reach == FrameReach::catches  ? "ends catch"
                           : reach == FrameReach::slips  ? "ends reach into the openings "
                                                           "and slip out later"
                           : line.verdict == Verdict::ok ? ""
                                                         : "an end touches if the coupon is laid by eye";
  if (line.value <= 0)
    line.shown = "none";
  line.formula = {
      "2 (distance - |offset| - 0.15 t)",
      "geometry; 0.15 t: laid by eye, common practice, no source",
      "straight legs decide whether an end catches; a caught end may still slip "
      "off by force"};
  return line;
}

ScreenLine leg_line(const Case &c)
{
  ScreenLine line;
  line.key      = "straight_leg";
  line.quantity = "longer leg's straight part";
  line.value    = straight_leg_length(c);
  line.verdict  = line.value > 0 ? Verdict::figure : Verdict::no;
  if (line.value > 0)
    line.note = "the plunger must be straight for longer";
  else
  {
    line.shown = "none";
    line.note  = "the coupon ends within the bend";
  }
  line.formula = {"L/2 + |offset| - (B + t/2) pi/2", "geometry",
                  "half turn about the nose"};
  return line;
}

ScreenLine offset_line(const Case &c)
{
  const double support = offset_for_support(c, margins::formed_angle * degree);
  const double frame   = offset_for_frame(c);
  ScreenLine   line;
  line.key      = "offset_allowance";
  line.quantity = "largest offset, either way";
  line.value    = std::max(0., std::min(support, frame));
  line.against  = {"laid at", std::abs(c.coupon.offset), Measure::length};
  line.verdict  = worse(support_verdict(c), frame_verdict(c));
  line.formula  = {
       "L/2 - side needed; frame distance - L/2", "geometry",
       "support of the shorter side until 85 deg, longer side inside the frame; ok: "
        "with 0.15 t to spare, as it is laid by eye; says nothing of the weld's place "
        "in the bend"};
  if (frame < 0 || support < 0)
    line.shown =
        frame < 0 ? "none: too long for the frame" : "none: the coupon is too short";
  return line;
}

/// How far weld metal and bands reach from the plunger's middle where they are widest [mm].
double weld_reach(const Case &c)
{
  const double    shift = c.weld.offset + c.coupon.offset;
  const WeldShape shape(c.weld, plate_thickness(c.weld, c.coupon));
  double          reach = 0;
  for (const ZoneOutline &zone : shape.outlines())
    for (const PlaneVector &point : zone.points)
      reach = std::max(reach, std::abs(point.x + shift));
  return reach;
}

ScreenLine weld_line(const Case &c)
{
  const double reach = weld_reach(c);
  ScreenLine   line;
  line.key      = "weld_in_bend";
  line.quantity = "weld and HAZ reach from centre";
  line.value    = reach;
  const double bend =
      (c.fixture.plunger.nose_radius + c.coupon.thickness / 2) * 90 * degree;
  line.against = {"half bend", bend, Measure::length};
  line.verdict = reach <= 0.8 * bend ? Verdict::ok
                 : reach <= bend     ? Verdict::close
                                     : Verdict::no;
  line.formula = {"(B + t/2) pi/2",
                  "geometry; codes require weld and HAZ wholly inside the bend (from "
                  "memory)",
                  "half turn; the ends of the bend are stretched less"};
  return line;
}

Verdict stroke_verdict(const Case &c, const ScreenLine &stroke)
{
  return stroke.value > c.ram.stroke ? Verdict::no
         : *stroke.high > c.ram.stroke ||
                 stroke.value > margins::rating_share * c.ram.stroke
             ? Verdict::close
             : Verdict::ok;
}

ScreenLine stroke_line(const Case &c)
{
  const double offset = std::abs(c.coupon.offset);
  ScreenLine   line;
  line.key      = "stroke_needed";
  line.quantity = "stroke needed (last end out)";
  line.value    = travel_needed(c);
  line.low      = (1 - margins::less_travel) * (line.value - offset);
  line.high     = (1 + margins::more_travel) * line.value;
  line.against  = {"ram's stroke", c.ram.stroke, Measure::length};
  line.verdict  = stroke_verdict(c, line);
  if (offset > 0)
    line.also = {"first end out at", travel_of_first_end(c) + travel_of_clinging(c),
                 Measure::length};
  line.formula = {
      "t + B + longer leg's straight part + depth + r sin(atan mu)", "geometry",
      "a U with upright legs; both ends past the last upright tangent of their "
      "shoulders, and round r below it as far as friction holds them; depth: from the "
      "shoulders' tops to that tangent; a coupon that runs ahead of the nose, slides along "
      "it or falls free before needs less"};
  return line;
}
} // namespace

ScreenSection screen_length(const Case &c)
{
  ScreenSection section{"Length and place", {needed_line(c), support_line(c)}};
  if (c.fixture.frame.present())
    section.lines.push_back(frame_line(c));
  section.lines.push_back(leg_line(c));
  section.lines.push_back(offset_line(c));
  if (c.weld.present() && c.weld.run == WeldRun::transverse)
    section.lines.push_back(weld_line(c));
  section.lines.push_back(stroke_line(c));
  return section;
}

ScreenSection screen_length(const Case &c, const ForceBand &band)
{
  ScreenSection section = screen_length(c);
  const double  springs = band.springback.value / degree;
  const double  more    = springs - margins::usual_springback;
  if (!(more > 0))
    return section;
  const auto of_support = [](const ScreenLine &line)
  {
    return line.key == "length_needed" || line.key == "support_lost" ||
           line.key == "offset_allowance";
  };
  const auto lost =
      std::find_if(section.lines.begin(), section.lines.end(),
                   [](const ScreenLine &line) { return line.key == "support_lost"; });
  const bool stand = lost->value - more >= margins::formed_angle;
  for (ScreenLine &line : section.lines)
    if (of_support(line) && line.verdict == Verdict::ok && !stand)
    {
      line.verdict = Verdict::close;
      line.note    = "springs back by " + decimal_text(springs, 0) +
                  " deg a leg: whether both legs stand, only push computes";
    }
    else if (line.key == "stroke_needed")
    {
      line.high = (1 + margins::more_travel + margins::springy_travel * more) * line.value;
      line.verdict = stroke_verdict(c, line);
    }
  return section;
}
} // namespace throughbend
