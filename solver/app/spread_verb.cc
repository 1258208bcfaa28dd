#include "solver/app/spread_verb.h"

#include "inputs/input_error.h"
#include "inputs/spread.h"
#include "solver/app/help.h"
#include "solver/app/study_verbs.h"

namespace throughbend
{
namespace
{
constexpr std::size_t fewest_passes = 10;
} // namespace

SpreadOrder spread_order(const GivenWords &given)
{
  SpreadOrder order;
  order.study = study_order(given, "spread");
  if (given.has("passes"))
    order.passes = told_count(given.value("passes"), "--passes");
  if (order.passes < fewest_passes)
    throw InputError("--passes " + given.value("passes") +
                     ": so few tell nothing; at least " + std::to_string(fewest_passes) +
                     " are needed.");
  if (given.has("seed"))
    order.seed = told_count(given.value("seed"), "--seed");
  return order;
}

Verb spread_verb()
{
  return {
      "spread",
      "CASE",
      "what coupons that differ from each other do: probabilities, what matters",
      "Pushes coupons whose keys are sampled from the laws in the case's section "
      "[spread]: throughbend spread CASE --spread.coupon.thickness \"+- 0.2 mm\" "
      "--spread.material.yield catalogue. Says how probable it is that a coupon does not "
      "go through, that the ram's force does not do, that the face is stretched beyond "
      "what the metal bears, each with its interval of 95 %; the force and stretch below "
      "which 5, 50 and 95 % lie; and which key matters. The fixture stays as it is. An "
      "undecided pass is none of these, and counts as a failure at the upper end. An "
      "estimate, as good as the laws are.",
      with_study_options({{"passes", "N", "coupons to push; default 400", {}},
                          {"seed",
                           "S",
                           "of the samples; another one gives other coupons; default 1",
                           {}}}),
      CaseKeys::taken,
      1,
      [](const std::vector<std::string> &words)
      { return go_on_as_study(spread_verb(), words, spread_order); }};
}
} // namespace throughbend
