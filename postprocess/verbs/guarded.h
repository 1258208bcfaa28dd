#pragma once
// The last net of every program of ours: errors become a line on stderr and an exit code,
// output that could not be printed among them.

#include "postprocess/verbs/exit_code.h"

#include <functional>

namespace throughbend
{
/// InputError is bad input, said once even where several ranks meet it; anything else is an
/// error of machine or program. So is standard output that took less than was printed.
ExitCode guarded(const std::function<ExitCode()> &work);
} // namespace throughbend
