#include "postprocess/words/weld_text.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// A half model's numbers hold on both sides.
bool is_half(const RunSummary &summary)
{
  return summary.origin.model == "half" || summary.origin.model == "quarter";
}

std::string side_words(const double right, const bool half)
{
  return half ? "on both sides" : right < 0 ? "left" : "right";
}

/// "in the HAZ, 0.5 mm outside the right fusion line".
std::string peak_place(const FaceFigures &face, const bool half, const UnitSystem units)
{
  const FacePeak   &peak   = face.peak;
  const double      close  = 0.05; // [mm], shown as 0.0
  const double      middle = face.from_weld_middle(peak.position);
  const double      fusion = face.from_fusion_line(peak.position);
  const std::string in     = "in the " + zone_words(peak.zone) + ", ";
  const bool        beside = peak.zone != FaceZone::weld && std::isfinite(fusion);
  if (beside)
    return in + length_text(fusion, units) + " outside " +
           (half         ? "either"
            : middle < 0 ? "the left"
                         : "the right") +
           " fusion line";
  if (std::abs(middle) < close)
    return in + "in the middle";
  return in + length_text(std::abs(middle), units) +
         (half ? " from the weld's middle, on both sides"
               : " " + side_words(middle, half) + " of the weld's middle");
}

std::string zone_peaks(const FaceFigures &face, const bool half)
{
  const auto of = [&](const char *name, const FaceZone zone) -> std::string
  {
    const ZoneFigures *const figures = face.zone(zone);
    return figures == nullptr ? "" : name + percent_text(figures->peak.elongation()) + ", ";
  };
  std::string text = of("weld ", FaceZone::weld);
  text += half
              ? of("HAZ ", FaceZone::right_haz)
              : of("left HAZ ", FaceZone::left_haz) + of("right HAZ ", FaceZone::right_haz);
  text += of("base plate ", FaceZone::left_base);
  return text.substr(0, text.size() - 2);
}

/// In or out of the bend, and of what sticks out the zone that does so most.
std::string bend_place(const FaceFigures &face, const bool half, const UnitSystem units)
{
  const bool metal = face.zone(FaceZone::weld) != nullptr;
  const bool heat  = face.zone(FaceZone::left_haz) != nullptr;
  if (std::isnan(face.weld_inside_bend))
    return "not yet bent far enough to tell what lies in it";
  if (face.weld_inside_bend >= 0)
    return std::string(!heat    ? "the weld lies"
                       : !metal ? "the HAZ lies"
                                : "weld and HAZ lie") +
           " wholly in it, by " + length_text(face.weld_inside_bend, units) + " at least";
  const ZoneFigures *out = nullptr;
  for (const ZoneFigures &zone : face.zones)
    if (zone.inside_bend < 0 && (out == nullptr || zone.inside_bend < out->inside_bend))
      out = &zone;
  if (out == nullptr)
    return "weld and HAZ do not lie wholly in it";
  // Of a body the edge may be what sticks out, of a double V at both ends.
  if (out->from >= face.bend_from && out->to <= face.bend_to)
    return "the " + zone_words(out->peak.zone) + " sticks out of it by " +
           length_text(-out->inside_bend, units) + " at the free edges";
  // The weld itself may stick out at both ends.
  const double over_left  = face.bend_from - out->from;
  const double over_right = out->to - face.bend_to;
  const bool   right      = over_right > over_left;

  constexpr double alike   = 0.05; // as printed [mm]
  const auto       is_twin = [&](const ZoneFigures &zone)
  {
    return &zone != out && std::abs(zone.inside_bend - out->inside_bend) < alike &&
           (right ? zone.from < face.bend_from : zone.to > face.bend_to);
  };
  const bool both = half || std::abs(over_left - over_right) < alike ||
                    std::any_of(face.zones.begin(), face.zones.end(), is_twin);
  return "the " + zone_words(out->peak.zone) + " sticks out of it by " +
         length_text(-out->inside_bend, units) +
         (both    ? " on both sides"
          : right ? " on the right"
                  : " on the left");
}

void add_weld(std::vector<FindingLine> &lines, const RunSummary &summary,
              const UnitSystem units)
{
  const FaceFigures &face = *summary.face_at_end;
  const bool         half = is_half(summary);
  lines.push_back(
      {"strain gathers", peak_place(face, half, units) + ": " +
                             decimal_text(face.over_nominal(face.peak.elongation()), 2) +
                             " times nominal"});
  lines.push_back(
      {face.across ? "by zone, mid-width" : "largest by zone", zone_peaks(face, half)});
  if (std::isfinite(face.gauge_mean))
    lines.push_back({"over a gauge", percent_text(face.gauge_mean) + " over " +
                                         length_text(face.gauge_length, units) +
                                         " about the weld"});
  lines.push_back({"the bend", bend_place(face, half, units)});
  if (summary.figures && !half)
    lines.push_back({"sideways walk",
                     std::abs(summary.figures->walk_end) < 0.05
                         ? "none to speak of"
                         : length_text(std::abs(summary.figures->walk_end), units) +
                               " to the " + side_words(summary.figures->walk_end, half)});
}

void add_wire(std::vector<FindingLine> &lines, const RunSummary &summary,
              const UnitSystem units)
{
  if (!summary.figures || summary.wire_diameter <= 0)
    return;
  const KeyFigures         &key = *summary.figures;
  const std::optional<bool> in  = wire_goes_in(key, summary.wire_diameter);
  std::string               words;
  if (in)
    words = std::string(*in ? "goes in" : "does not go in") + ": gap under the nose " +
            (key.width ? "at mid-width " : "") + length_text(key.gap_for_wire(), units) +
            ", wrap " + angle_text(key.wrap_end);
  else if (std::isnan(key.wrap_end))
    words = "not tried: the nose does not touch the coupon at the end";
  else
    words =
        "not tried: the nose touches over " + angle_text(key.wrap_end) + " only, no U yet";
  lines.push_back({length_text(summary.wire_diameter, units) + " wire", words});
}

/// Of a half model's two bands, which are one, the right.
void add_ductility(std::vector<FindingLine> &lines, const RunSummary &summary)
{
  const bool  half = is_half(summary);
  std::string used, unknown;
  bool        by_elongation = false, stated = false;
  for (const ZoneFigures &zone : summary.face_at_end->zones)
  {
    if (half && zone.peak.zone == FaceZone::left_haz)
      continue;
    const std::string side = half                                    ? ""
                             : zone.peak.zone == FaceZone::left_haz  ? "left "
                             : zone.peak.zone == FaceZone::right_haz ? "right "
                                                                     : "";
    const std::string name = side + zone_words(zone.peak.zone);
    if (!zone.limit)
    {
      unknown += (unknown.empty() ? "" : ", ") + name;
      continue;
    }
    stated                = true;
    const bool elongation = zone.limit->measure == DuctilityLimit::Measure::elongation;
    by_elongation         = by_elongation || elongation;
    used += (used.empty() ? "" : ", ") + name + " " +
            decimal_text(100 * zone.ductility_used, 0) + " % of " +
            (elongation ? percent_text(zone.limit->value) + " elongation"
                        : "log strain " + decimal_text(zone.limit->value, 3));
  }
  if (!stated)
    return;
  lines.push_back({"ductility used", used});
  if (summary.face_at_end->across)
    lines.push_back({"", "at mid-width; METAL above counts the edges, too"});
  if (!unknown.empty())
    lines.push_back({"", "not stated for " + unknown});
  if (by_elongation)
    lines.push_back({"", "a peak at a point over a tension test's mean errs on the safe "
                         "side; that a bent face"});
  if (by_elongation)
    lines.push_back({"", "bears less than a bar in tension (triaxiality 0.58, not 0.33) on "
                         "the other"});
}
} // namespace

std::vector<FindingLine> weld_lines(const RunSummary &summary, const UnitSystem units)
{
  std::vector<FindingLine> lines;
  const bool               face = summary.face_at_end.has_value();
  if (face && std::isfinite(summary.face_at_end->weld_middle))
    add_weld(lines, summary, units);
  add_wire(lines, summary, units);
  if (face)
    add_ductility(lines, summary);
  return lines;
}
} // namespace throughbend
