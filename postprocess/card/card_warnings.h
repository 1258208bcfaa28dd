#pragma once
// What speaks against a card's limits, at its top, and what they leave out, at its foot.

#include "postprocess/card/bench_card.h"

#include <string>

namespace throughbend
{
/// Empty: nothing speaks against them.
std::string warning_html(const BenchCard &card);

/// As many sentences as there is room for.
std::string left_out_html(const BenchCard &card);
} // namespace throughbend
