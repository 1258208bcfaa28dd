#pragma once
// What --help prints of one verb, made from its own words and the table of keys; for the
// front program and for the companions that carry a verb out.

#include "postprocess/verbs/verb.h"

#include <string>
#include <vector>

namespace throughbend
{
std::string verb_help(const Verb &verb); ///< one verb with its options and keys
std::string usage(const Verb &verb);     ///< throughbend push CASE [options] ...
std::string exit_codes_text();           ///< a line per code, ends with a newline

bool asks_for_help(const std::string &word);    ///< -h, --help
bool asks_for_version(const std::string &word); ///< -V, --version

/// What a companion that carries out one verb prints when it is asked for its help or its
/// version, a line of its own; empty when it is asked for neither.
std::string companion_text(const std::string &program, const std::string &version,
                           const Verb &verb, const std::vector<std::string> &words);
} // namespace throughbend
