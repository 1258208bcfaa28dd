#pragma once
// The verbs `gather` and `compare`, which read run folders and load no library for it.

#include "postprocess/verbs/verb.h"

namespace throughbend
{
Verb gather_verb();  ///< many runs as one table
Verb compare_verb(); ///< two runs, and what differs beyond the numerical band
} // namespace throughbend
