#pragma once
// Sentences that run.json keeps with their numbers apart, put together for a reader: each
// number as the reader wants to see it. Words nothing itself.

#include "inputs/text/json_members.h"
#include "inputs/units/display_units.h"
#include "postprocess/runs/run_record.h"

#include <functional>
#include <string>

namespace throughbend
{
/// How a number is shown: its value, and the text of display_units for what it measures.
using ShownNumber =
    std::function<std::string(double value, std::string (*text)(double, UnitSystem))>;

/// The sentence at a path such as `finding.verdict`; empty when there is none, or it is not
/// as this version writes it.
std::string account_text(const RunRecord &run, const std::string &path,
                         const ShownNumber &shown);

/// The same of any JSON that keeps its sentences so.
std::string account_text(const JsonMembers &members, const std::string &path,
                         const ShownNumber &shown);

/// Every number in one family of units.
ShownNumber shown_in(UnitSystem units);
std::string account_text(const RunRecord &run, const std::string &path, UnitSystem units);
} // namespace throughbend
