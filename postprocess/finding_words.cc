#include "postprocess/finding_words.h"

#include <cctype>
#include <cmath>

namespace throughbend
{
namespace
{
/// "both legs squeezed between plunger and shoulder", "the right end hooked on the frame"
std::string jam_words(const std::string &jam, const std::string &where)
{
  const auto        begins = [&](const char *word) { return where.rfind(word, 0) == 0; };
  const bool        hooked = jam == "hooked";
  const std::string part =
      begins("both")    ? std::string("both ") + (hooked ? "ends" : "legs")
      : begins("left")  ? std::string("the left ") + (hooked ? "end" : "leg")
      : begins("right") ? std::string("the right ") + (hooked ? "end" : "leg")
      : hooked          ? "an end"
                        : "a leg";
  return jam == "squeezed" ? part + " squeezed between plunger and shoulder"
         : hooked          ? part + " hooked on the frame"
                           : "stuck in another way" + (where.empty() ? "" : ", " + where);
}

/// A number of the evidence by what it measures; empty when there is no such number.
std::string evidence_number(const RunRecord &run, const std::string &place,
                            const ReaderUnits &units)
{
  const auto value = [&](const std::string &measure)
  { return run.number("finding.account." + place + "." + measure); };
  if (const double v = value("length_mm"); std::isfinite(v))
    return units.both(v, length_text);
  if (const double v = value("room_mm"); std::isfinite(v))
    return units.both(v, fine_length_text);
  if (const double v = value("force_N"); std::isfinite(v))
    return units.both(v, force_text);
  if (const double v = value("force_rise_N_per_mm"); std::isfinite(v))
    return units.both(v, force_rise_text);
  if (const double v = value("angle_deg"); std::isfinite(v))
    return angle_text(v);
  return "";
}
} // namespace

std::string finding_evidence(const RunRecord &run, const ReaderUnits &units)
{
  const std::string words = run.word("finding.account.words");
  std::string       text;
  std::size_t       from = 0;
  while (true)
  {
    const std::size_t open = words.find('{', from), close = words.find('}', open);
    if (open == std::string::npos || close == std::string::npos)
      break;
    const std::string number =
        evidence_number(run, words.substr(open + 1, close - open - 1), units);
    if (number.empty()) // not as this version writes it
      return run.word("finding.evidence");
    text += words.substr(from, open - from) + number;
    from = close + 1;
  }
  text += words.substr(from);
  return text.empty() ? run.word("finding.evidence") : text;
}

std::string finding_sentence(const RunRecord &run, const ReaderUnits &units)
{
  const std::string outcome = run.word("finding.outcome"), jam = run.word("finding.jam"),
                    where  = run.word("finding.where");
  const std::string travel = units.length(run.number("finding.travel_mm"));
  const std::string force  = units.force(run.number("finding.ram_force_N"));
  const std::string as_well =
      jam.empty() ? "" : ", and the coupon is jammed as well: " + jam_words(jam, where);
  if (outcome == "through")
    return "The coupon goes through: it is bent and clear of the shoulders after " +
           travel + " of travel.";
  if (outcome == "jammed")
    return "The coupon jams at " + travel + " of travel: " + jam_words(jam, where) +
           ", with " + force + " on the ram.";
  if (outcome == "over-capacity")
  {
    const std::string ahead = run.word("finding.jam_ahead");
    return "The ram reaches its " + force + " at " + travel + " of travel" +
           (!jam.empty() ? as_well
            : !ahead.empty()
                ? "; more force would only lead into a jam: " + jam_words(ahead, "")
                : ", while the coupon would go on with more force") +
           ".";
  }
  if (outcome == "stroke-out")
    return "The ram's stroke ends at " + travel + " with the coupon not yet through" +
           as_well + ".";
  if (outcome == "dropped")
    return "The coupon drops: it leaves the shoulders at " + travel +
           " of travel, before it is bent to a U.";
  if (outcome == "undecided")
    return "No finding: the computation gave up at " + travel +
           " of travel. This says nothing about the coupon.";
  const std::string state = run.word("state"), failure = run.word("failure");
  if (state == "running")
    return "No finding: the run had not ended when this page was made, or it was killed.";
  if (state == "interrupted")
    return "No finding: the run was stopped by its user.";
  if (state == "failed")
    return "No finding: the run failed" + (failure.empty() ? "." : ": " + failure);
  return "No finding: the folder does not say how the run ended.";
}

std::string finding_badge(const RunRecord &run)
{
  const std::string outcome = run.word("finding.outcome");
  return outcome.empty() ? "no finding" : outcome;
}

std::string finding_class(const RunRecord &run)
{
  std::string word;
  for (const char c : finding_badge(run))
    word += std::isalpha(static_cast<unsigned char>(c)) ? c : '-';
  return word;
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
