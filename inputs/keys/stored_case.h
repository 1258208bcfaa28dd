#pragma once
// The case that stands in a run folder or a study, which somebody else may have made. A
// user's own case may name a terminal or a pipe as the file of a curve or catalogue; this
// one may not, for reading it would wait for ever.

#include "inputs/keys/case_reader.h"

#include <string>
#include <string_view>

namespace throughbend
{
/// As read_case_text, but a file that it names must be a regular one.
CaseReading stored_case(std::string_view text, const std::string &name);
} // namespace throughbend
