#pragma once
// The card that hangs beside a fixture: what it takes, where it is greased, safety rules,
// and where each number is from. One HTML text that prints on one
// sheet, A4 or Letter. Only words and layout; numbers come from case_limits and runs.

#include "postprocess/card/card_runs.h"
#include "solver/limits/case_limits.h"

#include <string>
#include <vector>

namespace throughbend
{
struct BenchCard
{
  Case                 given;
  std::string          case_file; ///< as it was named
  CaseLimits           limits;
  std::vector<CardRun> runs;
  std::string          program;                    ///< `throughbend 1.2.3`
  UnitSystem           units = UnitSystem::metric; ///< the larger figures
};

/// As many as there is room for on a sheet.
constexpr std::size_t most_card_runs = 3;

/// Every text of case and runs is escaped and clipped to the room it has.
std::string bench_card(const BenchCard &card);

/// By this a card is known as one of ours, which may be overwritten.
bool is_bench_card(const std::string &html);
} // namespace throughbend
