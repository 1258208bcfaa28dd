#pragma once
// All that reads a run folder, called one after the other as the verbs do: for folders that
// were spoiled, of which the readers may refuse any, but in words of ours.

#include "postprocess/runs/run_record.h"
#include "postprocess/verbs/report_words.h"
#include "solver/limits/case_limits.h"

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// A good run to compare with; without a case no card is asked for.
struct WholeRun
{
  RunRecord                 run;
  std::optional<CaseLimits> limits;
};
WholeRun whole_run(const std::filesystem::path &folder);

struct ReaderFaults
{
  int                      refusals = 0; ///< InputError: as it should be
  std::vector<std::string> faults;       ///< anything else that went wrong
};

/// Pictures take most of the time. `secret` is a text outside of the run that must stand on
/// no page.
ReaderFaults read_as_verbs_do(const std::filesystem::path &folder, const WholeRun &whole,
                              const std::string &secret, Pictures pictures);
} // namespace throughbend
