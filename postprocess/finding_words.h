#pragma once
// A run's finding as sentences for the top of a page: the verdict with its numbers in both
// families of units, and the evidence as it was recorded. Decides nothing.

#include "inputs/run_record.h"
#include "postprocess/reader_units.h"

namespace throughbend
{
/// One sentence. Says so when there is no finding, and why.
std::string finding_sentence(const RunRecord &run, const ReaderUnits &units);

/// What the finding rests on, with its numbers in both families; as it was recorded where
/// the run kept no numbers for it. May be empty.
std::string finding_evidence(const RunRecord &run, const ReaderUnits &units);

/// The finding in a word or two, for badges and table heads: "through", "no finding".
std::string finding_badge(const RunRecord &run);

/// The same as the class of an element: letters and dashes only.
std::string finding_class(const RunRecord &run);

/// What keeps the report from being whole, a sentence each; empty for a complete run.
std::vector<std::string> incomplete_because(const RunRecord                &run,
                                            const std::vector<std::string> &missing_shapes);
} // namespace throughbend
