// Section length: support, frame, legs, offset, weld, stroke.

#include "meshes/weld_shape.h"
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

const Formula straight_legs = {
    "(B + t/2) b + (L0 - Q sin b) / cos b",
    "straight-leg statics; geometry as in Troive (2017), abstract read",
    "straight legs; the band of a curved leg is some 2 mm"};

ScreenLine needed_line(const Case &c)
{
  const double side = c.coupon.length / 2 - std::abs(c.coupon.offset);
  ScreenLine   line;
  line.key      = "length_needed";
  line.quantity = "length needed";
  line.value    = std::max(shortest_length(c),
                           2 * half_length_needed(c, margins::formed_angle * degree));
  line.against  = {c.coupon.offset == 0 ? "coupon" : "coupon, twice its shorter side",
                  2 * side, Measure::length};
  line.verdict = 2 * side >= line.value ? Verdict::ok
                 : side >= half_length_needed(c, margins::nearly_formed_angle * degree) &&
                         2 * side >= shortest_length(c)
                     ? Verdict::close
                     : Verdict::no;
  line.formula = straight_legs;
  line.formula.limits += "; support kept until the legs are 85 deg from flat (close: 75)";
  return line;
}

ScreenLine support_line(const Case &c)
{
  ScreenLine line;
  line.key      = "support_lost";
  line.quantity = "legs when ends leave shoulders";
  line.measure  = Measure::angle;
  line.value    = support_lost_angle(c) / degree;
  line.against  = {"formed from", margins::formed_angle, Measure::angle};
  line.verdict  = line.value >= margins::formed_angle          ? Verdict::ok
                  : line.value >= margins::nearly_formed_angle ? Verdict::close
                                                               : Verdict::no;
  line.formula  = straight_legs;
  return line;
}

ScreenLine frame_line(const Case &c)
{
  ScreenLine line;
  line.key               = "frame_length";
  line.quantity          = "length that reaches the frame";
  line.value             = frame_length(c);
  line.against           = {"coupon", c.coupon.length, Measure::length};
  const FrameReach reach = frame_reach(c);
  line.verdict           = reach == FrameReach::clear   ? Verdict::ok
                           : reach == FrameReach::slips ? Verdict::close
                                                        : Verdict::no;
  line.note              = reach == FrameReach::clear   ? ""
                           : reach == FrameReach::slips ? "ends slip out in time"
                                                        : "ends catch";
  line.formula           = {
                "2 (distance - |offset|)", "geometry",
                "straight legs decide whether an end catches; a caught end may still slip "
                          "off by force"};
  return line;
}

ScreenLine leg_line(const Case &c)
{
  ScreenLine line;
  line.key      = "straight_leg";
  line.quantity = "straight leg above the bend";
  line.value    = straight_leg_length(c);
  line.verdict  = line.value > 0 ? Verdict::figure : Verdict::no;
  line.note     = "the plunger is to be straight for longer";
  line.formula  = {"L/2 - (B + t/2) pi/2", "geometry", "half turn about the nose"};
  return line;
}

ScreenLine offset_line(const Case &c)
{
  ScreenLine line;
  line.key         = "offset_allowance";
  line.quantity    = "offset allowed either way";
  line.value       = offset_allowance(c, margins::nearly_formed_angle * degree);
  line.against     = {"laid at", std::abs(c.coupon.offset), Measure::length};
  const double eye = margins::laid_by_eye * c.coupon.thickness;
  line.verdict     = std::abs(c.coupon.offset) > line.value         ? Verdict::no
                     : std::abs(c.coupon.offset) + eye > line.value ? Verdict::close
                                                                    : Verdict::ok;
  line.formula     = {"L/2 - half length needed; frame", "geometry",
                      "support of the shorter side until 75 deg, longer side inside the frame; "
                          "says nothing of the weld's place in the bend"};
  return line;
}

/// How far weld metal and bands reach from the plunger's middle where they are widest [mm].
double weld_reach(const Case &c)
{
  const double    shift = c.weld.offset + c.coupon.offset;
  const WeldShape shape(c.weld, plate_thickness(c.weld, c.coupon));
  double          reach = 0;
  for (const ZoneOutline &zone : shape.outlines())
    for (const Vec2 &point : zone.points)
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
                  "geometry; weld and HAZ wholly inside the bend is "
                  "asked by codes (from memory)",
                  "half turn; the ends of the bend are stretched less"};
  return line;
}

ScreenLine stroke_line(const Case &c)
{
  ScreenLine line;
  line.key      = "stroke_needed";
  line.quantity = "travel until it is through";
  line.value    = travel_to_pass(c);
  line.low      = line.value - 0.02 * line.value;
  line.high     = line.value + 0.02 * line.value;
  line.against  = {"ram's stroke", c.ram.stroke, Measure::length};
  line.verdict  = *line.high > c.ram.stroke && line.value > c.ram.stroke ? Verdict::no
                  : line.value > margins::rating_share * c.ram.stroke    ? Verdict::close
                                                                         : Verdict::ok;
  line.formula  = {"t/2 + (B + t/2) + leg + depth", "geometry",
                   "a U with upright legs; ends past the last upright tangent of the "
                    "shoulders; a coupon that falls free before needs less"};
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
} // namespace throughbend
