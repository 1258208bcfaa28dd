#pragma once
// All verbs of the program, in the order in which a newcomer needs them.

#include "postprocess/verbs/verb.h"

namespace throughbend
{
const std::vector<Verb> &verbs();
} // namespace throughbend
