// What a finding says of a weld and of what is measured on the bent coupon. Figures are
// invented; sentences are asked for in test_run_words.

#include "postprocess/words/finding_text.h"
#include "postprocess/words/weld_text.h"
#include "tests/support/made_up_summaries.h"

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
} // namespace

TEST_CASE("where strain gathers, zone against zone, bend, wire, walk", "[unit][output]")
{
  const std::string text = text_of(welded());
  for (const char *figure : {"1.5 mm", "2.30", "weld 19.0 %", "left HAZ 30.0 %",
                             "right HAZ 46.0 %", "base plate 22.3 %", "21.2 % over 40.0 mm",
                             "26.0 mm", "0.4 mm", "3.2 mm wire", "0.7 mm", "166.5 deg"})
    CHECK_THAT(text, Contains(figure));
  CHECK_THAT(text, !Contains("ductility"));
  CHECK_THAT(text_of(welded(), UnitSystem::us),
             Contains("0.125 in wire") && Contains("1.575 in about") && !Contains(" mm"));
}

TEST_CASE("a half model's weld is told of both sides and does not walk", "[unit][output]")
{
  RunSummary summary     = welded();
  summary.origin.model   = "half";
  const std::string text = text_of(summary);
  CHECK_THAT(text, Contains("1.5 mm") && Contains("either") && Contains("weld 19.0 %") &&
                       Contains(" HAZ 46.0 %") && Contains("base plate 22.3 %"));
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
  CHECK_THAT(text, Contains("2.0 mm left"));
  CHECK_THAT(text, Contains("HAZ sticks out") && Contains("4.0 mm") && !Contains("wholly"));
  CHECK_THAT(text, Contains("wire: goes in") && Contains("3.4 mm"));

  face.weld_inside_bend         = unknown_figure;
  summary.figures->nose_gap_end = unknown_figure;
  summary.figures->wrap_end     = unknown_figure;
  text                          = text_of(summary);
  CHECK_THAT(text, !Contains("wholly") && !Contains("sticks out") &&
                       Contains("wire: not tried") && !Contains("unknown"));
}

TEST_CASE("a weld without HAZ, and one that is no U yet", "[unit][output]")
{
  RunSummary summary = welded();
  auto      &zones   = summary.face_at_end->zones;
  zones              = {zones[0], zones[2]};
  CHECK_THAT(text_of(summary), Contains("weld lies wholly") && !Contains("HAZ lie"));
  summary.figures->wrap_end = 40;
  CHECK_THAT(text_of(summary), Contains("not tried") && Contains("40.0 deg"));
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
  CHECK_THAT(text, Contains("base plate 89 %") && Contains("25.0 %") &&
                       Contains("weld 35 %") && Contains("0.500") &&
                       Contains("left HAZ, right HAZ\n"));
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
