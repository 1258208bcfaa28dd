#pragma once
// A screening for scripts: every line with its key, value, band, verdict, deciding number,
// formula, source and limits. In N, mm, MPa whatever the user's units.

#include "solver/screening/screening.h"

#include <string>

namespace throughbend
{
/// An object with a line end. A band without an upper bound has null there.
std::string check_json(const Screening &screening);
} // namespace throughbend
