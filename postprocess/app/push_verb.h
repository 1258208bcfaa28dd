#pragma once
// The verb push as the front program knows it: it checks the words and the case at once,
// and leaves the pass to the companion that loads deal.II.

#include "postprocess/verbs/verb.h"

namespace throughbend
{
Verb push_verb();
} // namespace throughbend
