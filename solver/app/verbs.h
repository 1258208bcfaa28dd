#pragma once
// All verbs of the program, in the order in which a newcomer needs them.

#include "inputs/verb.h"

namespace throughbend
{
const std::vector<Verb> &verbs();
} // namespace throughbend
