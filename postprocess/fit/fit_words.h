#pragma once
// A fit in words for the terminal.

#include "postprocess/fit/fit_report.h"

#include <string>

namespace throughbend
{
/// Whether the fitted case may be offered to act on.
bool is_offered(const FitJudgement &judgement);

/// What came of it, in one line.
std::string fit_headline(const FitReport &report);
std::string fit_text(const FitReport &report, UnitSystem units);
} // namespace throughbend
