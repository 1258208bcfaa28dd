#include "postprocess/app/spread_verb.h"

#include "inputs/keys/spread.h"
#include "inputs/text/input_error.h"
#include "postprocess/app/help.h"
#include "postprocess/app/study_verbs.h"

namespace throughbend
{
namespace
{
constexpr std::size_t fewest_passes = 10;
} // namespace

SpreadOrder spread_order(const VerbArguments &given)
{
  SpreadOrder order;
  order.study = study_order(given, "spread");
  if (given.has("passes"))
    order.passes = given_count(given.value("passes"), "--passes");
  if (order.passes < fewest_passes)
    throw InputError("--passes " + given.value("passes") + ": too few; at least " +
                     std::to_string(fewest_passes) + " are needed.");
  if (given.has("seed"))
    order.seed = given_count(given.value("seed"), "--seed");
  return order;
}

Verb spread_verb()
{
  return {
      "spread",
      "CASE",
      "probabilities when coupons scatter, and which key matters most",
      "Simulates many coupons whose keys are drawn from the laws in the section "
      "[spread] of the case: throughbend spread CASE --spread.coupon.thickness \"+- 0.2 "
      "mm\" --spread.material.yield catalogue. Gives the probability that a coupon does "
      "not go through, that the ram is too weak, and that the face is stretched beyond "
      "the limit of the metal, each with its 95 % interval. Gives the 5, 50 and 95 % "
      "quantiles of force and stretch, and which key matters most. The fixture is varied "
      "only where the case says so. An undecided pass counts as a failure only in the "
      "upper end of an interval. The results are estimates, as good as the laws are.",
      with_study_options({{"passes", "N", "number of coupons; default 400", {}},
                          {"seed", "S", "seed of the random samples; default 1", {}}}),
      CaseKeys::taken,
      1,
      [](const std::vector<std::string> &words)
      { return go_on_as_study(spread_verb(), words, spread_order); }};
}
} // namespace throughbend
