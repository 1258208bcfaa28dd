// What a finding says of a weld and of what is measured on the bent coupon. Figures are
// invented.

#include "postprocess/words/finding_text.h"
#include "postprocess/words/weld_text.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
constexpr UnitSystem metric = UnitSystem::metric;

std::string text_of(const RunSummary &summary, const UnitSystem units = metric)
{
  std::string text;
  for (const auto &[name, value] : weld_lines(summary, units))
    text += name + ": " + value + '\n';
  return text;
}

ZoneFigures zone(const FaceZone which, const double elongation, const double from,
                 const double to)
{
  ZoneFigures figures;
  figures.peak        = {which, std::log1p(elongation), (from + to) / 2, 0.58};
  figures.from        = from;
  figures.to          = to;
  figures.inside_bend = std::min(from + 35, 35 - to);
  return figures;
}

/// 12 mm of weld about 0, bands of 3 mm, the right one soft; a bend from -35 to 35 mm.
RunSummary welded()
{
  FaceFigures face;
  face.nominal_elongation = 0.2;
  face.weld_middle        = 0;
  face.fusion_left        = -6;
  face.fusion_right       = 6;
  face.gauge_length       = 40;
  face.gauge_mean         = 0.212;
  face.bend_from          = -35;
  face.bend_to            = 35;
  face.weld_inside_bend   = 26;
  face.zones              = {zone(FaceZone::left_base, 0.223, -35, 35),
                             zone(FaceZone::left_haz, 0.3, -9, -6), zone(FaceZone::weld, 0.19, -6, 6),
                             zone(FaceZone::right_haz, 0.46, 6, 9)};
  face.peak               = face.zones.back().peak; // at 7.5 mm
  RunSummary summary;
  summary.figures               = KeyFigures();
  summary.figures->nose_gap_end = 0.73;
  summary.figures->wrap_end     = 166.5;
  summary.figures->walk_end     = -0.4;
  summary.wire_diameter         = 3.175;
  summary.face_at_end           = face;
  summary.origin.model          = "full";
  return summary;
}
} // namespace

TEST_CASE("where strain gathers, zone against zone, bend, wire, walk", "[unit][output]")
{
  const std::string text = text_of(welded());
  CHECK_THAT(text, Contains("strain gathers: in the HAZ, 1.5 mm outside the right fusion "
                            "line: 2.30 times nominal"));
  CHECK_THAT(text, Contains("weld 19.0 %, left HAZ 30.0 %, right HAZ 46.0 %, base plate "
                            "22.3 % at most"));
  CHECK_THAT(text, Contains("21.2 % over 40.0 mm about the weld"));
  CHECK_THAT(text, Contains("weld and HAZ lie wholly in it, by 26.0 mm at least"));
  CHECK_THAT(text, Contains("0.4 mm to the left"));
  CHECK_THAT(text, Contains("3.2 mm wire: does not go in: gap under the nose 0.7 mm, wrap "
                            "166.5 deg"));
  CHECK_THAT(text, !Contains("ductility"));
  CHECK_THAT(text_of(welded(), UnitSystem::us),
             Contains("0.125 in wire") && Contains("1.575 in about") && !Contains(" mm"));
}

TEST_CASE("a half model's weld is told of both sides and does not walk", "[unit][output]")
{
  RunSummary summary     = welded();
  summary.origin.model   = "half";
  const std::string text = text_of(summary);
  CHECK_THAT(text, Contains("1.5 mm outside either fusion line") &&
                       Contains("weld 19.0 %, HAZ 46.0 %, base plate 22.3 %"));
  CHECK_THAT(text, !Contains("left") && !Contains("right") && !Contains("walk"));
}

TEST_CASE("a peak in the weld, a band out of the bend, a wire that goes in",
          "[unit][output]")
{
  RunSummary   summary          = welded();
  FaceFigures &face             = *summary.face_at_end;
  face.peak                     = face.zones[2].peak; // of the weld
  face.peak.position            = -2;
  face.weld_inside_bend         = -4;
  face.bend_to                  = 5;
  face.zones[2].inside_bend     = -1;
  face.zones[3].inside_bend     = -4;
  summary.figures->nose_gap_end = 3.4;
  std::string text              = text_of(summary);
  CHECK_THAT(text, Contains("in the weld, 2.0 mm left of the weld's middle"));
  CHECK_THAT(text, Contains("the HAZ sticks out of it by 4.0 mm on the right") &&
                       !Contains("wholly"));
  CHECK_THAT(text, Contains("wire: goes in: gap under the nose 3.4 mm"));

  face.weld_inside_bend         = unknown_figure;
  summary.figures->nose_gap_end = unknown_figure;
  summary.figures->wrap_end     = unknown_figure;
  text                          = text_of(summary);
  CHECK_THAT(text, Contains("not yet bent far enough") && Contains("wire: not tried"));
}

TEST_CASE("a weld without HAZ, and one that is no U yet", "[unit][output]")
{
  RunSummary summary = welded();
  auto      &zones   = summary.face_at_end->zones;
  zones              = {zones[0], zones[2]};
  CHECK_THAT(text_of(summary),
             Contains("the weld lies wholly in it") && !Contains("HAZ lie"));
  summary.figures->wrap_end = 40;
  CHECK_THAT(text_of(summary), Contains("not tried: the nose touches over 40.0 deg only"));
}

TEST_CASE("ductility used says by which measure, and what was not stated", "[unit][output]")
{
  using Measure                = DuctilityLimit::Measure;
  RunSummary   summary         = welded();
  FaceFigures &face            = *summary.face_at_end;
  face.zones[0].limit          = DuctilityLimit{Measure::elongation, 0.25};
  face.zones[0].ductility_used = 0.892;
  face.zones[2].limit          = DuctilityLimit{Measure::local_strain, 0.5};
  face.zones[2].ductility_used = 0.35;
  std::string text             = text_of(summary);
  CHECK_THAT(text, Contains("base plate 89 % of 25.0 % elongation, weld 35 % of log strain "
                            "0.500\n: not stated for left HAZ, right HAZ"));
  CHECK_THAT(text, Contains("safe side") && Contains("triaxiality"));

  face.zones[0].limit.reset(); // a strain at a point needs no such words
  text = text_of(summary);
  CHECK_THAT(text, Contains("weld 35 %") && !Contains("safe side"));
}

TEST_CASE("a plain coupon has no lines, but for what was asked", "[unit][output]")
{
  RunSummary summary    = welded();
  summary.wire_diameter = 0;
  FaceFigures plain;
  plain.zones         = {zone(FaceZone::left_base, 0.22, -35, 35)};
  plain.peak          = plain.zones[0].peak;
  summary.face_at_end = plain;
  CHECK(weld_lines(summary, metric).empty());
  CHECK_THAT(finding_text(summary, "", metric), !Contains("weld") && !Contains("walk"));
  summary.wire_diameter = 3.175;
  CHECK(weld_lines(summary, metric).size() == 1);
  CHECK_THAT(finding_text(summary, "", metric), Contains("3.2 mm wire"));
}
