#pragma once
// The finding as a person reads it at the end of a run: a verdict in one sentence, what it
// rests on, the figures with their margins, where the files are, and a short caution. Words
// only; every number comes from the summary.

#include "inputs/units/display_units.h"
#include "postprocess/words/caution.h"
#include "solver/record/run_summary.h"

#include <filesystem>
#include <string>

namespace throughbend
{
/// The two answers, a line each: what the pass came to, and the metal. Empty without a
/// finding.
std::string verdict_lines(const RunSummary &summary, UnitSystem units);

/// The whole text, several lines, each ended. `folder` is the run's own as the user
/// named it; empty when nothing was written.
std::string finding_text(const RunSummary &summary, const std::filesystem::path &folder,
                         UnitSystem units);
} // namespace throughbend
