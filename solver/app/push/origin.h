#pragma once
// What this very run is made from and with, for run.json and the log.

#include "inputs/case/case.h"
#include "solver/record/run_summary.h"

#include <string>

namespace throughbend
{
RunOrigin run_origin(const Case &c, const std::string &case_file, int ranks);
} // namespace throughbend
