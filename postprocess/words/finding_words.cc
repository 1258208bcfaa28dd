#include "postprocess/words/finding_words.h"

namespace throughbend
{
namespace
{
/// An account of run.json with its numbers in both families of units.
std::string account(const RunRecord &run, const std::string &path, const ReaderUnits &units)
{
  return account_text(run, path, shown_in(units));
}
} // namespace

ShownNumber shown_in(const ReaderUnits &units)
{
  return [units](const double value, std::string (*text)(double, UnitSystem))
  { return units.both(value, text); };
}

std::string finding_evidence(const RunRecord &run, const ReaderUnits &units)
{
  const std::string text = account(run, "finding.account", units);
  return text.empty() ? run.word("finding.evidence") : text;
}

std::string finding_sentence(const RunRecord &run, const ReaderUnits &units)
{
  if (const std::string verdict = account(run, "finding.verdict", units); !verdict.empty())
    return verdict;
  if (const std::string outcome = run.word("finding.outcome"); !outcome.empty())
    return "The finding is \"" + outcome +
           "\". An older version of throughbend made this run without a sentence: push "
           "the case again.";
  const std::string state = run.word("state"), failure = run.word("failure");
  if (state == "running")
    return "No finding: the run had not ended when this page was made, or it was killed.";
  if (state == "interrupted")
    return "No finding: the run was stopped by its user.";
  if (state == "failed")
    return "No finding: the run failed" + (failure.empty() ? "." : ": " + failure);
  return "No finding: the folder does not say how the run ended.";
}

std::string metal_sentence(const RunRecord &run, const ReaderUnits &units)
{
  const std::string answer = run.word("metal.answer");
  return answer.empty() ? ""
                        : "METAL, " + answer + ": " + account(run, "metal.account", units);
}

std::string accuracy_sentence(const RunRecord &run, const ReaderUnits &units)
{
  const std::string trust = run.word("numerical_quality.accuracy");
  if (trust.empty() || trust == "sound")
    return "";
  std::string reasons;
  for (std::size_t i = 0;; ++i)
  {
    const std::string reason =
        account(run, "numerical_quality.accuracy_reasons." + std::to_string(i), units);
    if (reason.empty())
      break;
    reasons += (i > 0 ? "; " : "") + reason;
  }
  return "ACCURACY, " + trust + ": " + reasons + ".";
}

std::vector<std::string> incomplete_because(const RunRecord                &run,
                                            const std::vector<std::string> &missing_shapes)
{
  std::vector<std::string> reasons;
  const std::string        state = run.word("state"), outcome = run.word("finding.outcome");
  if (state == "running")
    reasons.emplace_back(
        "The run has not ended, or it was killed. The report shows what its files "
        "contain.");
  else if (state == "interrupted")
    reasons.emplace_back("The run was interrupted. The report goes as far as the run "
                         "got.");
  else if (state == "failed")
    reasons.push_back("The run failed: " + run.word("failure"));
  if (const std::string cure = how_to_resume(run); !cure.empty())
    reasons.push_back(cure);
  if (outcome == "undecided")
    reasons.emplace_back("The computation gave up before a finding. The report says "
                         "nothing about the coupon.");
  reasons.insert(reasons.end(), run.missing.begin(), run.missing.end());
  reasons.insert(reasons.end(), missing_shapes.begin(), missing_shapes.end());
  if (!run.missing.empty() || !missing_shapes.empty())
    reasons.push_back("To get what is missing, run the case again: throughbend push " +
                      (run.known_case ? (run.folder / "case.ini").string() : "CASE") +
                      " --into a-new-folder");
  return reasons;
}
} // namespace throughbend
