#pragma once
// What is left of the ram's force or stroke, in words.

#include <string>

namespace throughbend
{
/// A share [-] of what `of` names ("capacity", "stroke"); empty where it is no number. Only
/// a coupon that went through can be said to have a margin: of any other nobody knows what
/// it would have needed.
std::string margin_text(double share, const std::string &of, bool through);
} // namespace throughbend
