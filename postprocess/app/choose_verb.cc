#include "postprocess/app/choose_verb.h"

#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "postprocess/app/study_verbs.h"

#include <algorithm>

namespace throughbend
{
namespace
{
GivenValues given_values(const std::string &option, const std::string &text,
                         const std::string &form)
{
  const std::size_t is = text.find('=');
  if (is == std::string::npos || is == 0)
    throw InputError(option + " needs " + form + ".");
  GivenValues stated;
  stated.option            = option;
  stated.key               = std::string(trimmed(text.substr(0, is)));
  std::string       values = text.substr(is + 1);
  const std::size_t dots   = values.find("..");
  if (dots == std::string::npos)
  {
    for (std::size_t at = 0; at <= values.size();)
    {
      const std::size_t comma = std::min(values.find(',', at), values.size());
      stated.list.push_back(std::string(trimmed(values.substr(at, comma - at))));
      at = comma + 1;
    }
    for (const std::string &value : stated.list)
      if (value.empty())
        throw InputError(option + " " + stated.key + ": a value is empty; it needs " +
                         form + ".");
    return stated;
  }
  stated.is_range = true;
  std::string end = values.substr(dots + 2);
  if (const std::size_t by = end.find(" by "); by != std::string::npos)
  {
    stated.step = std::string(trimmed(end.substr(by + 4)));
    end         = end.substr(0, by);
  }
  else if (const std::size_t slash = end.rfind('/'); slash != std::string::npos)
  {
    // A value may be 1/2 in: only a bare number at the very end counts levels.
    const std::string count(trimmed(end.substr(slash + 1)));
    if (!count.empty() && count.find_first_not_of("0123456789") == std::string::npos)
    {
      stated.even = given_count(count, option);
      end         = end.substr(0, slash);
    }
  }
  stated.list = {std::string(trimmed(values.substr(0, dots))), std::string(trimmed(end))};
  return stated;
}
} // namespace

ChooseOrder choose_order(const VerbArguments &given)
{
  const std::string free_form =
      "KEY=FROM..TO by STEP, KEY=FROM..TO/N or KEY=A,B,C, as in --free "
      "\"shoulders.opening=58 mm..70 mm by 1 mm\"";
  const std::string family_form =
      "KEY=FROM..TO or KEY=A,B,C, as in --family \"coupon.thickness=9 mm..10.5 mm\"";
  ChooseOrder order;
  order.study = study_order(given, "choose");
  if (order.study.part || order.study.merge)
    throw InputError(
        "choose decides after each pass which one is next, so it cannot run in parts. "
        "Leave out --part and --merge.");
  for (const std::string &text : given.values("free"))
  {
    order.free.push_back(given_values("--free", text, free_form));
    const GivenValues &stated = order.free.back();
    if (stated.is_range && stated.step.empty() && stated.even < 2)
      throw InputError("--free " + stated.key + ": which sizes? It needs " + free_form +
                       ".");
  }
  for (const std::string &text : given.values("family"))
  {
    order.family.push_back(given_values("--family", text, family_form));
    if (const GivenValues &stated = order.family.back();
        stated.even > 0 || !stated.step.empty())
      throw InputError("--family " + stated.key + ": its ends are enough; it needs " +
                       family_form + ".");
  }
  if (order.free.empty())
    throw InputError("choose: what may be chosen? --free " + free_form + ".");
  if (order.family.empty())
    throw InputError("choose: for which coupons? --family " + family_form + ".");
  std::vector<std::string> keys;
  for (const std::vector<GivenValues> *list : {&order.free, &order.family})
    for (const GivenValues &stated : *list)
    {
      if (std::find(keys.begin(), keys.end(), stated.key) != keys.end())
        throw InputError("the key " + stated.key + " is given twice.");
      keys.push_back(stated.key);
    }
  if (given.value("goal") == "most-margin")
    order.goal = ChoiceGoal::most_margin;
  if (given.has("sample"))
    order.sample = given_count(given.value("sample"), "--sample");
  if (order.sample > 1000)
    throw InputError("--sample: at most 1000 coupons.");
  return order;
}

Verb choose_verb()
{
  return {
      "choose",
      "CASE",
      "the fixture that takes a family of coupons, and its tolerances",
      "Finds sizes of plunger, shoulders and frame with which every coupon of a family "
      "goes through: throughbend choose CASE --free \"shoulders.opening=58 mm..70 mm by "
      "1 mm\" --family \"coupon.thickness=9 mm..10.5 mm\" --family "
      "\"friction.shoulders=0.05..0.15\" --family material.grade=s235,s355. Fixtures "
      "that check rejects, in which it is not sure of a full U, or that do not meet "
      "fixture.rule are left out first. The "
      "others are simulated with all corners of the family and with coupons inside it. "
      "Every pass must be sound: through, no leg ironed, no frame touched, no stretch "
      "beyond the limit of the metal. Prints what limits each size on either side, and "
      "the largest tolerances with which all corners still go through. Writes "
      "chosen.ini, a drawing (chosen.svg, and chosen.dxf for CAD) and a card "
      "(chosen-card.html) into the "
      "study's folder. The result is an estimate: keep a margin to its limits.",
      with_study_options(
          {{"free",
            "KEY=SIZES",
            "a size of the fixture to choose; may be repeated",
            {},
            Given::again},
           {"family",
            "KEY=VALUES",
            "how the coupons differ: a range or a list (for example of metals); may be "
            "repeated",
            {},
            Given::again},
           {"goal",
            "GOAL",
            "what to optimise: least force, or most margin of force, stroke and "
            "stretch; default least-force",
            {"least-force", "most-margin"}},
           {"sample",
            "N",
            "number of coupons inside the family, besides its corners; default 16",
            {}}}),
      CaseKeys::taken,
      1,
      [](const std::vector<std::string> &words)
      { return go_on_as_study(choose_verb(), words, choose_order); }};
}
} // namespace throughbend
