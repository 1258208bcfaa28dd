#include "postprocess/runs/run_badge.h"

#include "postprocess/runs/run_events.h"

#include <stdexcept>

namespace throughbend
{
namespace
{
bool has_finding(const RunRecord &run)
{
  const std::string outcome = run.word("finding.outcome");
  return !outcome.empty() && outcome != "undecided";
}
/// Ripple or numerical error could turn it.
bool is_close(const RunRecord &run)
{
  return run.truth("finding.close").value_or(false);
}
} // namespace

std::string finding_brief(const RunRecord &run)
{
  std::string words = run.word("finding.outcome");
  if (words.empty())
    return "no finding";
  if (!has_finding(run))
    return words;
  for (const RunEvent &event : run_events(run))
    if (words.find(event.kind) == std::string::npos)
      words += ", " + event.kind;
  return is_close(run) ? words + ", close" : words;
}

std::string metal_brief(const RunRecord &run)
{
  if (!has_finding(run))
    return "-";
  const std::string answer = run.word("metal.answer");
  return answer == "within" || answer == "beyond" ? answer + " limits" : "not known";
}

std::string badge_words(const RunRecord &run)
{
  std::string words = finding_brief(run);
  if (!has_finding(run))
    return words;
  words += "; metal " + metal_brief(run);
  if (const std::string trust = run.word("numerical_quality.accuracy"); trust != "sound")
    words += trust.empty() ? "; accuracy not known" : "; " + trust + " accuracy";
  return words;
}

BadgeColour badge_colour(const RunRecord &run)
{
  const std::string metal = run.word("metal.answer"),
                    trust = run.word("numerical_quality.accuracy");
  if (!has_finding(run) || trust == "broken")
    return BadgeColour::none;
  if (run.word("finding.outcome") != "through" || metal == "beyond")
    return BadgeColour::bad;
  if (metal != "within" || trust != "sound" || !run_events(run).empty() || is_close(run))
    return BadgeColour::open;
  return BadgeColour::good;
}

std::string to_text(const BadgeColour colour)
{
  switch (colour)
  {
  case BadgeColour::good:
    return "good";
  case BadgeColour::open:
    return "open";
  case BadgeColour::bad:
    return "bad";
  case BadgeColour::none:
    return "none";
  }
  throw std::logic_error("there is no such colour");
}
} // namespace throughbend
