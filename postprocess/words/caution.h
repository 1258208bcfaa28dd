#pragma once
// The few warnings that stand wherever a person reads results: guarding, eye protection,
// ejection, the jack's limits, and what an estimate is not. Words only.

#include <string>

namespace throughbend
{
/// Three lines, each ended.
std::string caution_text();
} // namespace throughbend
