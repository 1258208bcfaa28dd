#include "postprocess/report/events_table.h"

#include "postprocess/html/html_text.h"

namespace throughbend
{
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
  return "<section class=\"events\">\n<h3>What a sound pass does not have</h3>\n" +
         table({"what", "where", "travel", "ram force before",
                "ram force meanwhile, at most", "on one tool, at most"},
               rows) +
         (run_beyond(run) ? paragraph("They are those up to the ram's capacity.") : "") +
         "</section>\n";
}
} // namespace throughbend
