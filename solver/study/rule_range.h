#pragma once
// What the rule that a case names allows of a key, for a map to be drawn into.

#include "inputs/case/case.h"
#include "inputs/case/option.h"

#include <optional>
#include <string>

namespace throughbend
{
/// [N, mm, MPa; -]; nothing where no rule is named or it says nothing of the key. A bare
/// figure of a rule is taken with the tolerance of the comparison.
std::optional<Range> rule_range(const Case &c, const std::string &key);
} // namespace throughbend
