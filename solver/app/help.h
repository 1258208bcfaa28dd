#pragma once
// What --help prints, made from the verbs' own words and the table of keys.

#include "inputs/verb.h"

#include <string>
#include <vector>

namespace throughbend
{
std::string program_help();              ///< the verbs, exit codes, cautions
std::string verb_help(const Verb &verb); ///< one verb with its options and keys
std::string usage(const Verb &verb);     ///< throughbend push CASE [options] ...
std::string exit_codes_text();           ///< a line per code, ends with a newline

/// `throughbend 0.1.0 (revision)` and a newline, of one of our programs.
std::string version_line(const std::string &program);

bool asks_for_help(const std::string &word);    ///< -h, --help
bool asks_for_version(const std::string &word); ///< -V, --version

/// What a companion that carries out one verb prints when it is asked for its help or its
/// version; empty when it is asked for neither.
std::string companion_text(const std::string &program, const Verb &verb,
                           const std::vector<std::string> &words);
} // namespace throughbend
