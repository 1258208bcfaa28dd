#pragma once
// The text of `compare` for more than two runs: cases, findings and key figures in columns,
// each figure with its difference from the first run. Compares nothing itself.

#include "postprocess/runs/run_comparison.h"

namespace throughbend
{
/// Which figures are listed.
enum class Listed
{
  differing,
  all
};

constexpr std::size_t widest_cell = 40; // characters of a value in a column

/// `compared` are the second, third ... run with the first.
std::string many_runs_text(const std::vector<RunRecord>     &runs,
                           const std::vector<RunComparison> &compared, Listed listed,
                           UnitSystem units);
} // namespace throughbend
