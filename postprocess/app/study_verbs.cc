#include "postprocess/app/study_verbs.h"

#include "postprocess/app/companion.h"
#include "postprocess/app/limit_order.h"
#include "postprocess/app/map_order.h"

namespace throughbend
{
std::vector<VerbOption> with_study_options(std::vector<VerbOption> own)
{
  const std::vector<VerbOption> shared = study_options();
  own.insert(own.end(), shared.begin(), shared.end());
  return own;
}

void run_study_program(const Verb &verb, const std::vector<std::string> &words)
{
  std::vector<std::string> all = {verb.name};
  all.insert(all.end(), words.begin(), words.end());
  become("throughbend-study", all, CompanionKind::passes);
}

Verb limit_verb()
{
  return {
      "limit",
      "CASE",
      "the value of a key at which the finding changes: how thick, how long, how dry",
      "Finds the values of a key at which the finding changes: throughbend limit CASE "
      "--vary coupon.thickness --from \"9 mm\" --to \"14 mm\". It simulates passes at "
      "several values, and more of them around every change, until the values on its "
      "two sides are close enough (--within). There may be several changes. For each "
      "one it prints the pass below, the pass above, and what check says. Any key with "
      "a number can be varied; with several --vary each is varied alone. Each pass is "
      "the same as one by push. The limits are estimates: leave a margin for "
      "differences in plate, grease and fixture.",
      with_study_options(
          {{"vary", "KEY", "a key with a number; may be repeated", {}, Given::again},
           {"from",
            "VALUE",
            "lower end of the range; one for each --vary",
            {},
            Given::again},
           {"to", "VALUE", "upper end of the range; one for each --vary", {}, Given::again},
           {"within",
            "VALUE",
            "largest distance between the two sides of a change; one for each --vary; "
            "default a hundredth of the range",
            {},
            Given::again},
           {"scan", "N", "number of values in the first scan of each key; default 9", {}},
           {"until",
            "CONDITION",
            "condition that changes at the limit: through; sound (through without an "
            "event, such as an ironed leg, and with sound figures); another finding "
            "(jammed, over-capacity, stroke-out, dropped); \"metal-within\"; "
            "\"force-below 90%\" of ram.capacity, \"force-below 70 kN\"; "
            "\"stretch-below 25%\". The last three also require through. Default through",
            {}}}),
      CaseKeys::taken,
      1,
      [](const std::vector<std::string> &words)
      { return go_on_as_study(limit_verb(), words, limit_order); }};
}

Verb map_verb()
{
  return {
      "map",
      "CASE",
      "the finding over a grid of one, two or three keys",
      "Simulates a pass at every point of a grid: throughbend map CASE --along "
      "coupon.thickness=\"9 mm..14 mm/12\" --across friction.shoulders=0.05..0.30/9. "
      "Levels are evenly spaced or a list: =9 mm,10 mm,12 mm. With --refine it "
      "simulates the points between only where neighbours differ. The study keeps "
      "finding, figures, force and shapes of every pass; throughbend report shows them. "
      "The borders are estimates, not allowed values: leave a margin for differences in "
      "plate, grease and fixture.",
      with_study_options(
          {{"along", "KEY=LEVELS", "levels on the horizontal axis", {}},
           {"across", "KEY=LEVELS", "levels on the vertical axis", {}},
           {"sheets", "KEY=LEVELS", "a third key; one map for each of its levels", {}},
           {"refine",
            "",
            "start with every fourth level; simulate points between them only where "
            "passes differ",
            {}}}),
      CaseKeys::taken,
      1,
      [](const std::vector<std::string> &words)
      { return go_on_as_study(map_verb(), words, map_order); }};
}
} // namespace throughbend
