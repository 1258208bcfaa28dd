#pragma once
// The verbs that make many passes, in words: limit and map. Carried out by
// throughbend-study.

#include "inputs/verb.h"

namespace throughbend
{
Verb limit_verb();
Verb map_verb();
} // namespace throughbend
