#pragma once
// What --help and --version print of the whole program.

#include "postprocess/verbs/verb_help.h"

#include <string>

namespace throughbend
{
std::string program_help(); ///< the verbs, exit codes, cautions

/// `throughbend 0.1.0 (revision)` and a newline, of one of our programs.
std::string version_line(const std::string &program);
} // namespace throughbend
