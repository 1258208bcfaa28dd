#pragma once
// Completion of words in the user's shell, made from the verbs and the table of keys.

#include "postprocess/verbs/verb.h"

namespace throughbend
{
/// A script for bash or zsh to source. Throws InputError for any other shell.
std::string shell_completion(const std::string &shell, const std::vector<Verb> &verbs);
} // namespace throughbend
