#pragma once
// What this very run is made from and with, for run.json and the log.

#include "inputs/case.h"
#include "solver/output/run_summary.h"

#include <string>

namespace throughbend
{
/// Version of the program and revision of the checkout it was built from (empty without
/// one; with `-dirty` when files differed from it).
std::string program_version();
std::string git_revision();

RunOrigin run_origin(const Case &c, const std::string &case_file, int ranks);
} // namespace throughbend
