#include "postprocess/runs/run_events.h"

#include <cmath>

namespace throughbend
{
std::string RunEvent::name() const
{
  return where.empty() ? kind : kind + ", " + where;
}

std::vector<RunEvent> run_events(const RunRecord &run)
{
  std::vector<RunEvent> events;
  for (std::size_t i = 0;; ++i)
  {
    const std::string here   = "finding.events." + std::to_string(i) + ".";
    const auto        number = [&](const char *name) { return run.number(here + name); };
    const std::string kind   = run.word(here + "kind");
    if (kind.empty())
      return events;
    RunEvent event;
    event.kind          = kind;
    event.where         = run.word(here + "where");
    event.from          = number("from_travel_mm");
    event.to            = number("to_travel_mm");
    event.force_before  = number("ram_force_before_N");
    event.largest_force = number("largest_ram_force_N");
    event.at            = number("largest_ram_force_travel_mm");
    event.tool_force    = number("largest_tool_force_N");
    events.push_back(event);
  }
}

std::optional<RunBeyond> run_beyond(const RunRecord &run)
{
  const std::string here = "finding.beyond_capacity.";
  RunBeyond         beyond;
  beyond.end        = run.word(here + "ends");
  beyond.force      = run.number(here + "force_it_takes_N");
  beyond.force_at   = run.number(here + "force_it_takes_travel_mm");
  beyond.leg_ironed = run.truth(here + "leg_ironed").value_or(false);
  if (const double lack = run.number(here + "force_it_takes_lack"); lack > 0)
    beyond.force_lack = lack;
  beyond.shoulder     = run.number(here + "largest_shoulder_force_N");
  beyond.frame        = run.number(here + "largest_frame_force_N");
  beyond.outer_strain = run.number(here + "peak_outer_strain_log");
  if (beyond.end.empty() || !std::isfinite(beyond.force))
    return std::nullopt;
  return beyond;
}
} // namespace throughbend
