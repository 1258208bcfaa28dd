#pragma once
// The boxes of a card's limits: thickest, longest, strongest coupon and the ram that they
// need, each with what sets it.

#include "postprocess/card/bench_card.h"

#include <string>

namespace throughbend
{
std::string limits_html(const BenchCard &card);
} // namespace throughbend
