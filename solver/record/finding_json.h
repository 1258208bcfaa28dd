#pragma once
// A finding, with its evidence, events and what a stronger ram would do, for run.json.

#include "inputs/text/json.h"
#include "solver/outcome/finding.h"

namespace throughbend
{
/// Words with {1}, {2}, ... where numbers go, and each number as a member "1", "2", ...
/// that says what it measures: for readers of either family of units.
Json account_json(const Evidence &account);

Json finding_json(const Finding &finding);
} // namespace throughbend
