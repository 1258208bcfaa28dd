#pragma once
// What --help prints, made from the verbs' own words and the table of keys.

#include "inputs/verb.h"

#include <string>

namespace throughbend
{
std::string program_help();              ///< the verbs, exit codes, cautions
std::string verb_help(const Verb &verb); ///< one verb with its options and keys
std::string usage(const Verb &verb);     ///< throughbend push CASE [options] ...
std::string exit_codes_text();           ///< a line per code, ends with a newline
} // namespace throughbend
