#pragma once
// The boxes of a card's limits: thickest, longest, strongest coupon and the ram that they
// need, each with what sets it.

#include "postprocess/card/bench_card.h"

#include <string>

namespace throughbend
{
/// Whether the boxes have a length to offer: there is one by the limits, and in both
/// families of units what they print as the longest is not below what they print as the
/// shortest.
bool has_length(const CaseLimits &limits);

std::string limits_html(const BenchCard &card);
} // namespace throughbend
