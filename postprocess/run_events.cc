#include "postprocess/run_events.h"

#include "inputs/html_text.h"

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
  beyond.end          = run.word(here + "ends");
  beyond.force        = run.number(here + "force_it_takes_N");
  beyond.force_at     = run.number(here + "force_it_takes_travel_mm");
  beyond.shoulder     = run.number(here + "largest_shoulder_force_N");
  beyond.frame        = run.number(here + "largest_frame_force_N");
  beyond.outer_strain = run.number(here + "peak_outer_strain_log");
  if (beyond.end.empty() || !std::isfinite(beyond.force))
    return std::nullopt;
  return beyond;
}

std::string events_html(const RunRecord &run, const ReaderUnits &units)
{
  std::vector<std::vector<std::string>> rows;
  for (const RunEvent &event : run_events(run))
    rows.push_back(
        {event.kind, event.where.empty() ? "-" : event.where,
         length_text(event.from, units.first()) + " to " + units.length(event.to),
         units.force(event.force_before),
         units.force(event.largest_force) + " at " + length_text(event.at, units.first()),
         units.force(event.tool_force)});
  if (rows.empty())
    return "";
  return "<section class=\"events\">\n<h3>Contacts that a sound pass does not have</h3>\n" +
         table({"what", "where", "travel", "ram force before",
                "ram force meanwhile, at most", "on one tool, at most"},
               rows) +
         (run_beyond(run) ? paragraph("They are those up to the ram's capacity.") : "") +
         "</section>\n";
}
} // namespace throughbend
