// The sentences of a run's text: a row for each thing that is said, in both families of
// units. Here alone a test depends on how they are put; the other tests of this folder ask
// for figures. All figures are invented.

#include "postprocess/words/finding_text.h"
#include "postprocess/words/progress.h"
#include "postprocess/words/weld_text.h"
#include "tests/support/made_up_summaries.h"

#include <catch2/catch.hpp>

#include <sstream>

using namespace throughbend;
using Catch::Matchers::Contains;

namespace
{
std::string text_of(const RunSummary &summary, const UnitSystem units = UnitSystem::metric)
{
  return finding_text(summary, "", units);
}

void check_words(const std::string &text, const std::vector<std::string> &there)
{
  for (const std::string &words : there)
    CHECK_THAT(text, Contains(words));
}
} // namespace

TEST_CASE("a run's text says what each figure is", "[unit][words]")
{
  const RunSummary sound = invented_summary();
  check_words(
      text_of(sound),
      {"THROUGH: the coupon is bent and clear of the shoulders after 71.1 mm",
       "31.4 kN at 30.5 mm of travel\n", "80.0 kN, margin 60.8 %",
       "127.0 mm, used 71.1 mm, margin 44.0 %",
       "27.5 % (log strain 0.243), 2.5 mm left of the coupon's centre",
       "20.0 %, thickness / (2 x nose radius + thickness)",
       "0.251 at most, on the convex face\n", "3.0 deg left, 1.5 deg right",
       "at most 3.05 m/s, if all the 13.6 J of released elastic energy became motion",
       "penetration 0.0034 % of thickness, no force ripple seen",
       "a coupon under load can fly out: guard the fixture, stand clear, wear eye "
       "protection",
       "Never go beyond the rated force or stroke of the jack",
       "These are estimates, not an acceptance: the governing code and licensed "
       "practice decide"});
  check_words(text_of(sound, UnitSystem::us),
              {"clear of the shoulders after 2.800 in", "7.06 kip at 1.200 in of travel",
               "0.100 in left of the coupon's centre",
               "at most 10.0 ft/s, if all the 10.0 "
               "ft lbf of released"});
  check_words(finding_text(sound, "runs/a", UnitSystem::metric),
              {"Files in runs/a", "both faces at the peak force and at the end"});

  RunSummary rippled               = sound;
  rippled.figures->peak_force_band = 1200;
  rippled.figures->ripple          = 0.034;
  check_words(text_of(rippled),
              {"smooth course; the computed force ripples by 1.20 kN about it",
               "force ripple 3.4 %"});

  RunSummary half               = sound;
  half.origin.model             = "half";
  half.figures->outer_strain_at = 2.54;
  check_words(text_of(half),
              {"2.5 mm from the coupon's centre, on both sides", "1.5 deg on either side"});

  RunSummary unsettled         = sound;
  unsettled.release->completed = false;
  check_words(text_of(unsettled), {"unknown: the release did not come to rest"});

  RunSummary broken;
  broken.state   = RunState::failed;
  broken.failure = "out of memory";
  check_words(text_of(broken), {"NO FINDING: the run is failed: out of memory."});
}

TEST_CASE("a run's text says how far a flaw opens and what a tool bears", "[unit][words]")
{
  RunSummary  summary;
  FlawFigures flaw;
  flaw.name       = "flaw";
  flaw.at_convex  = true;
  flaw.opening    = 4;
  flaw.opening_at = 20;
  flaw.limit      = 3;
  flaw.passed_at  = 15;
  summary.flaws   = {flaw};
  check_words(
      text_of(summary),
      {"4.00 mm open at the convex face, at 20.0 mm of travel; past the limit of 3.0 "
       "mm from 15.0 mm of travel on",
       "No crack grows"});
  summary.flaws[0].passed_at.reset();
  check_words(text_of(summary), {"the limit of 3.0 mm is not reached"});
  summary.flaws[0].opening = 0;
  check_words(text_of(summary), {"pressed shut all the way"});

  ToolLoad load;
  load.tool     = "right shoulder";
  summary.tools = {load};
  check_words(text_of(summary),
              {"whether this marks it is not known: its yield stress is not given"});
}

TEST_CASE("a run's text says where strain gathers, and whether the wire goes in",
          "[unit][words]")
{
  RunSummary   summary = welded();
  FaceFigures &face    = *summary.face_at_end;
  check_words(
      text_of(summary),
      {"\nAt the end of the push (strains above are the largest of the whole pass)\n",
       "in the HAZ, 1.5 mm outside the right fusion line: 2.30 times nominal",
       "largest by zone  weld 19.0 %, left HAZ 30.0 %, right HAZ 46.0 %, base plate "
       "22.3 %\n",
       "21.2 % over 40.0 mm about the weld",
       "weld and HAZ lie wholly in it, by 26.0 mm at least", "0.4 mm to the left",
       "does not go in: gap under the nose 0.7 mm, wrap 166.5 deg"});
  check_words(text_of(summary, UnitSystem::us),
              {"0.125 in wire", "21.2 % over 1.575 in about the weld"});

  summary.origin.model = "half";
  check_words(text_of(summary), {"1.5 mm outside either fusion line",
                                 "weld 19.0 %, HAZ 46.0 %, base plate 22.3 %"});
  summary.origin.model = "full";

  using Stated                 = DuctilityLimit::Measure;
  face.zones[0].limit          = DuctilityLimit{Stated::elongation, 0.25};
  face.zones[0].ductility_used = 0.892;
  face.zones[2].limit          = DuctilityLimit{Stated::local_strain, 0.5};
  face.zones[2].ductility_used = 0.35;
  check_words(text_of(summary),
              {"base plate 89 % of 25.0 % elongation, weld 35 % of log strain 0.500\n",
               "not stated for left HAZ, right HAZ", "errs on the safe side"});

  face.peak                     = face.zones[2].peak;
  face.peak.position            = -2;
  face.weld_inside_bend         = -4;
  face.bend_to                  = 5;
  face.zones[3].inside_bend     = -4;
  summary.figures->nose_gap_end = 3.4;
  check_words(text_of(summary), {"in the weld, 2.0 mm left of the weld's middle",
                                 "the HAZ sticks out of it by 4.0 mm on the right",
                                 "goes in: gap under the nose 3.4 mm"});

  face.weld_inside_bend         = unknown_figure;
  summary.figures->nose_gap_end = unknown_figure;
  summary.figures->wrap_end     = unknown_figure;
  check_words(text_of(summary),
              {"not yet bent far enough to tell what lies in it",
               "not tried: the nose does not touch the coupon at the end"});
  summary.figures->wrap_end = 40;
  check_words(text_of(summary),
              {"not tried: the nose touches over 40.0 deg only, no U yet"});
}

TEST_CASE("the live line says how long it still takes", "[unit][words]")
{
  std::ostringstream out;
  double             now = 0;
  Progress   progress(out, Audience::terminal, 80, UnitSystem::metric, [&] { return now; });
  PassSample sample;
  sample.step      = 9;
  sample.travel    = 20;
  sample.ram_force = 31400;
  now              = 30; // a quarter of the way
  progress.show(sample);
  check_words(out.str(),
              {"travel 20.0 mm  force 31.4 kN  step 9", "about 1 min 30 s left"});
}
