#pragma once
// The verb check: the closed-form screening of a case, at once.

#include "postprocess/verbs/verb.h"

namespace throughbend
{
Verb check_verb();
} // namespace throughbend
