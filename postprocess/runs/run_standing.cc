#include "postprocess/runs/run_standing.h"

namespace throughbend
{
bool has_finding(const RunRecord &run)
{
  return why_no_finding(run).empty();
}

std::string why_no_finding(const RunRecord &run)
{
  const std::string state = run.word("state"), outcome = run.word("finding.outcome"),
                    failure = run.word("failure");
  if (state == "interrupted")
    return "it was interrupted, and has no finding.";
  if (state == "failed")
    return "it failed" + (failure.empty() ? "." : ": " + failure);
  if (state == "being replaced" || state == "taking its place")
    return "it is being replaced by a newer run. If that was broken off, throughbend push "
           "--resume completes it.";
  if (state != "finished")
    return "it is under way, or was killed: it has no finding.";
  if (outcome.empty())
    return "it has no finding.";
  if (outcome == "undecided" || run.word("numerical_quality.accuracy") == "broken")
    return "it is undecided: the computation gave up, which says nothing about the coupon.";
  return "";
}
} // namespace throughbend
