#pragma once
// run.json of a run's folder, read back as members.

#include "inputs/text/json_members.h"

#include <filesystem>
#include <string>

namespace throughbend
{
struct SummaryFile
{
  JsonMembers members; ///< empty where the file is missing
  std::string missing; ///< what is missing, as the start of a sentence; empty if nothing is
};

/// Throws InputError for a run.json that this program did not write, or not in a format
/// that it reads. A file that is not there or is cut off is named in `missing`.
SummaryFile read_summary_file(const std::filesystem::path &folder);
} // namespace throughbend
