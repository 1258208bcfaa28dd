#pragma once
// The verb check: the closed-form screening of a case, at once.

#include "inputs/verb.h"

namespace throughbend
{
Verb check_verb();
} // namespace throughbend
