#pragma once
// What a study keeps of a pass, from what is known at its end. No mesh.

#include "solver/outcome/pass_sample.h"
#include "solver/record/run_summary.h"
#include "solver/study/file/study_record.h"

#include <map>
#include <string>
#include <vector>

namespace throughbend
{
/// Every number of a run.json by its path, the group `key_figures` left out of the path;
/// not what the run cost, what it was made with, its case, and lists.
std::map<std::string, double> figures_of(const std::string &summary_text);

/// Finding, metal and figures; without moments and time. The summary has a finding.
StudyPass pass_record(const RunSummary &summary, const std::vector<PassSample> &samples);
} // namespace throughbend
