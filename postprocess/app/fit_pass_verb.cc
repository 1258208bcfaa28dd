#include "postprocess/app/fit_pass_verb.h"

#include "inputs/case/shop_readings.h"
#include "inputs/text/input_error.h"
#include "postprocess/app/help.h"
#include "postprocess/app/study_verbs.h"

#include <algorithm>

namespace throughbend
{
namespace
{
/// Options of studies that make sense for a search that decides after each pass.
std::vector<VerbOption> options()
{
  std::vector<VerbOption> list = {
      {"hold",
       "WHAT",
       "keep this as in the case instead of fitting it: friction; strength; zeros (of "
       "travel and force: 0); travel-zero; force-zero; may be repeated",
       {"friction", "strength", "zeros", "travel-zero", "force-zero"},
       Given::again}};
  for (VerbOption option : study_options())
  {
    if (option.name == "out")
      option.help = "folder of the fit; default studies/NAME-fit-pass, where NAME is "
                    "the name of the case file";
    if (option.name == "overwrite")
      option.help =
          "replace the fit in the folder, with its fitted case. Its passes are used "
          "again";
    for (const char *const taken : {"out", "overwrite", "workers", "units", "quiet"})
      if (option.name == taken)
        list.push_back(option);
  }
  return list;
}
} // namespace

FitPassOrder fit_pass_order(const VerbArguments &given)
{
  if (given.operands.size() != 2)
    throw InputError(
        "fit-pass needs a case and the readings of a push: throughbend fit-pass "
        "my-case.ini readings.csv\n" +
        readings_notation());
  VerbArguments of_case = given;
  of_case.operands.pop_back();
  FitPassOrder order;
  order.study             = study_order(of_case, "fit-pass");
  order.study.at_capacity = AtCapacity::stop;
  order.readings          = given.operands[1];
  for (const std::string &what : given.values("hold"))
  {
    order.held[0] = order.held[0] || what == "friction";
    order.held[1] = order.held[1] || what == "strength";
    order.held[2] = order.held[2] || what == "zeros" || what == "travel-zero";
    order.held[3] = order.held[3] || what == "zeros" || what == "force-zero";
  }
  if (order.held[0] && order.held[1])
    throw InputError("--hold friction and --hold strength together leave nothing to fit.");
  return order;
}

Verb fit_pass_verb()
{
  return {
      "fit-pass",
      "CASE READINGS",
      "friction and strength from readings taken on the bench",
      "Finds the friction and the factor on the flow stress with which the computed "
      "force fits your readings, and the zero errors of ruler and gauge: throughbend "
      "fit-pass my-case.ini readings.csv. " +
          readings_notation() +
          " Prints each value with its standard error, and what the readings cannot "
          "determine. If every value is determined and the residuals keep no pattern "
          "larger than 2 % of the largest force, "
          "it writes the fitted case (fitted.ini). It always writes fit.json, "
          "residuals.csv and fit.svg. Passes use the standard mesh unless --mesh.level is "
          "given, and are corrected by one pass on the next finer mesh. The values are "
          "estimates for this plate and this grease.",
      options(),
      CaseKeys::taken,
      2,
      [](const std::vector<std::string> &words)
      { return go_on_as_study(fit_pass_verb(), words, fit_pass_order); }};
}
} // namespace throughbend
