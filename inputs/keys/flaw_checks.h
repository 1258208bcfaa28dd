#pragma once
// Checks of flaws against weld, coupon, model and each other: does each lie in the weld,
// can it be meshed, can this model show it. Says nothing about other keys.

#include "inputs/keys/validation.h"

namespace throughbend
{
std::vector<Objection> find_flaw_objections(const Case &);
} // namespace throughbend
