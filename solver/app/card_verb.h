#pragma once
// The verb card: one sheet to hang beside a fixture.

#include "inputs/verb.h"

namespace throughbend
{
Verb card_verb();
} // namespace throughbend
