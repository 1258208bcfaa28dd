#include "postprocess/app/check_verb.h"

#include "inputs/keys/case_reader.h"
#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "postprocess/app/help.h"
#include "postprocess/words/check_json.h"
#include "postprocess/words/check_text.h"

#include <iostream>

namespace throughbend
{
namespace
{
std::string line_of(Verdict verdict)
{
  return verdict == Verdict::no ? "no" : verdict == Verdict::close ? "close" : "ok";
}

/// Exit code by the worst line, where the user asked for that.
ExitCode judged(const VerbArguments &given, Verdict worst)
{
  const std::string expected = given.value("expect");
  const bool        met      = expected.empty() || line_of(worst) == "ok" ||
                   (expected == "close" && line_of(worst) == "close");
  return met ? ExitCode::finding : ExitCode::unexpected;
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(check_verb(), words);
  if (given.help)
    return show(verb_help(check_verb()));
  const CaseReading reading = read_case(the_case_file(given, "check"), given.overrides);
  if (!reading.errors.empty())
    throw InputError("the case cannot be used:\n" + error_list(reading.errors));
  for (const std::string &remark : reading.remarks)
    std::cerr << "note: " << shown_text(remark) << '\n';
  const Screening     screening = screen(*reading.value);
  const FormulaTokens detail =
      given.has("sources") ? FormulaTokens::sources : FormulaTokens::names;
  show(given.has("json") ? check_json(screening)
                         : check_text(screening, units_of(given), detail));
  return judged(given, screening.worst());
}
} // namespace

Verb check_verb()
{
  return {
      "check",
      "CASE",
      "closed-form check of a case: fit, length, force, jack; at once",
      "Answers at once from closed forms: whether the coupon fits, whether its length "
      "is right, which strain, force, springback and pressure to expect, and whether "
      "the jack is strong enough. Every line names its formula and its band, and says "
      "ok, close or no. At the end stands what only push can answer.",
      {{"json", "", "print JSON for scripts, in N, mm, MPa", {}},
       {"sources", "", "print the source of each formula and where it holds", {}},
       units_option("of the printed output"),
       {"expect", "WORST", "exit code 1 if a line is worse than this", {"ok", "close"}}},
      CaseKeys::taken,
      1,
      carry_out};
}
} // namespace throughbend
