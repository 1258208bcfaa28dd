#pragma once
// Run folders as a user names many of them: one by one, by a glob, or by a folder that
// holds them. Every folder is accounted for: it is a run, or the reason why it is none is
// given.

#include "postprocess/runs/run_record.h"

#include <string>
#include <vector>

namespace throughbend
{
struct GatheredRuns
{
  std::vector<RunRecord>   runs;        ///< in the order of the line, in a folder by name
  std::vector<std::string> left_out;    ///< a folder that is no run here: which, why, cure
  std::vector<std::string> passed_over; ///< files and runs named twice, for the record
};

/// A folder with run.json or travel.csv is a run; any other is searched for runs, one level
/// down. Throws InputError for a name that is not there, and where there is no run at all.
GatheredRuns gathered_runs(const std::vector<std::string> &named);
} // namespace throughbend
