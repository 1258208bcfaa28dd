#include "solver/app/study_verbs.h"

#include "solver/app/companion.h"
#include "solver/app/limit_order.h"
#include "solver/app/map_order.h"

namespace throughbend
{
std::vector<VerbOption> with_study_options(std::vector<VerbOption> own)
{
  const std::vector<VerbOption> shared = study_options();
  own.insert(own.end(), shared.begin(), shared.end());
  return own;
}

void become_study(const Verb &verb, const std::vector<std::string> &words)
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
      "where along a key the finding changes: how thick, how long, how dry",
      "Pushes the coupon at some places along a key, and then closer and closer about "
      "every change until its two sides are near enough: throughbend limit CASE --vary "
      "coupon.thickness --from \"9 mm\" --to \"14 mm\". Nothing is taken for monotone; "
      "each change is told by the pass below and the pass above it, with what was found "
      "in both, and beside it stands what check says. Every key with a number can be "
      "varied, several in one call, each from the case as it is. A pass at a value is "
      "the one that push makes with the same value. An estimate: leave room for what "
      "plate, grease and fixture may differ.",
      with_study_options(
          {{"vary", "KEY", "a key with a number; may be given again", {}, Given::again},
           {"from", "VALUE", "its lower end; one for each --vary", {}, Given::again},
           {"to", "VALUE", "its upper end; one for each --vary", {}, Given::again},
           {"within",
            "VALUE",
            "how near the two sides of a change are to come; one for each --vary, or "
            "none: a hundredth of the range",
            {},
            Given::again},
           {"scan", "N", "places of the first look along each key; default 9", {}},
           {"until",
            "CONDITION",
            "what is to hold on one side: through; sound (through without an event, such "
            "as "
            "an ironed leg, and with sound figures); another finding (jammed, "
            "over-capacity, stroke-out, dropped); \"metal-within\"; \"force-below 90%\" "
            "of ram.capacity, \"force-below 70 kN\"; \"stretch-below 25%\", which all "
            "ask for through as well. Default through",
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
      "what is found over a grid of one, two or three keys",
      "Pushes the coupon at every place of a grid: throughbend map CASE --along "
      "coupon.thickness=\"9 mm..14 mm/12\" --across friction.shoulders=0.05..0.30/9. "
      "Levels are evenly spaced or a list: =9 mm,10 mm,12 mm. With --refine only where "
      "neighbours differ. Every pass keeps its finding, figures, force and shapes; "
      "throughbend report shows them. An estimate: a border is no allowance, leave room "
      "for what plate, grease and fixture may differ.",
      with_study_options(
          {{"along", "KEY=LEVELS", "levels from left to right", {}},
           {"across", "KEY=LEVELS", "levels from below upward", {}},
           {"sheets", "KEY=LEVELS", "a third key, a map for each of its levels", {}},
           {"refine",
            "",
            "begin with every fourth level, and push between them only where passes "
            "differ",
            {}}}),
      CaseKeys::taken,
      1,
      [](const std::vector<std::string> &words)
      { return go_on_as_study(map_verb(), words, map_order); }};
}
} // namespace throughbend
