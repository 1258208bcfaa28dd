#pragma once
// A run's answers as sentences for the top of a page: the verdict, the metal, the accuracy
// and the evidence, as run.json words them, with numbers in both families of units. Decides
// and words nothing itself but what a run without a finding is.

#include "postprocess/runs/account_text.h"
#include "postprocess/runs/run_record.h"
#include "postprocess/words/reader_units.h"

namespace throughbend
{
/// Every number in both families.
ShownNumber shown_in(const ReaderUnits &units);

/// The verdict, a sentence. Says so when there is no finding, and why.
std::string finding_sentence(const RunRecord &run, const ReaderUnits &units);

/// "METAL, within: ..." as push prints it; empty where the run has no answer for the metal.
std::string metal_sentence(const RunRecord &run, const ReaderUnits &units);

/// "ACCURACY, low: ..." as push prints it; empty where the figures are sound.
std::string accuracy_sentence(const RunRecord &run, const ReaderUnits &units);

/// What the finding rests on, with its numbers in both families; as it was recorded where
/// the run kept no numbers for it. May be empty.
std::string finding_evidence(const RunRecord &run, const ReaderUnits &units);

/// What keeps the report from being whole, a sentence each; empty for a complete run.
std::vector<std::string> incomplete_because(const RunRecord                &run,
                                            const std::vector<std::string> &missing_shapes);
} // namespace throughbend
