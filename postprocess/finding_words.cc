#include "postprocess/finding_words.h"

#include <cctype>
#include <cmath>

namespace throughbend
{
namespace
{
/// A number of an account by what it measures; empty when there is no such number.
std::string account_number(const RunRecord &run, const std::string &place,
                           const ReaderUnits &units)
{
  const auto value = [&](const std::string &measure)
  { return run.number(place + "." + measure); };
  if (const double v = value("length_mm"); std::isfinite(v))
    return units.both(v, length_text);
  if (const double v = value("room_mm"); std::isfinite(v))
    return units.both(v, fine_length_text);
  if (const double v = value("force_N"); std::isfinite(v))
    return units.both(v, force_text);
  if (const double v = value("force_rise_N_per_mm"); std::isfinite(v))
    return units.both(v, force_rise_text);
  if (const double v = value("pressure_MPa"); std::isfinite(v))
    return units.both(v, stress_text);
  if (const double v = value("angle_deg"); std::isfinite(v))
    return angle_text(v);
  return "";
}

/// An account of run.json with its numbers in the reader's units; empty when there is none,
/// or it is not as this version writes it.
std::string account(const RunRecord &run, const std::string &path, const ReaderUnits &units)
{
  const std::string words = run.word(path + ".words");
  std::string       text;
  std::size_t       from = 0;
  while (true)
  {
    const std::size_t open = words.find('{', from), close = words.find('}', open);
    if (open == std::string::npos || close == std::string::npos)
      return text + words.substr(from);
    const std::string number =
        account_number(run, path + "." + words.substr(open + 1, close - open - 1), units);
    if (number.empty())
      return "";
    text += words.substr(from, open - from) + number;
    from = close + 1;
  }
}
} // namespace

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
           "\". An older version of throughbend made this run and kept no sentence: push "
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
        "The run has not ended, or it was killed: what follows goes as far "
        "as its files do.");
  else if (state == "interrupted")
    reasons.emplace_back("The run was interrupted: what follows goes as far as it got.");
  else if (state == "failed")
    reasons.push_back("The run failed: " + run.word("failure"));
  if (const std::string cure = how_to_resume(run); !cure.empty())
    reasons.push_back(cure);
  if (outcome == "undecided")
    reasons.emplace_back("The computation gave up before there was a finding: what follows "
                         "is no judgement of the coupon.");
  reasons.insert(reasons.end(), run.missing.begin(), run.missing.end());
  reasons.insert(reasons.end(), missing_shapes.begin(), missing_shapes.end());
  if (!run.missing.empty() || !missing_shapes.empty())
    reasons.push_back("What is missing comes back when the case is run again: throughbend "
                      "push " +
                      (run.told ? (run.folder / "case.ini").string() : "CASE") +
                      " --into a-new-folder");
  return reasons;
}
} // namespace throughbend
