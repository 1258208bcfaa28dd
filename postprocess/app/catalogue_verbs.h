#pragma once
// The verbs that look things up: fixture (dimensions by a published rule), rules, materials
// and lubricants. They read no case.

#include "postprocess/verbs/verb.h"

namespace throughbend
{
Verb fixture_verb();
Verb rules_verb();
Verb materials_verb();
Verb lubricants_verb();
} // namespace throughbend
