#pragma once
// What a run has and a sound pass doesn't, as a table of a page.

#include "postprocess/runs/run_events.h"
#include "postprocess/words/reader_units.h"

#include <string>

namespace throughbend
{
/// Empty without any event.
std::string events_html(const RunRecord &run, const ReaderUnits &units);
} // namespace throughbend
