#pragma once
// Checks of the weld's numbers against each other and against the coupon: does the section
// fit, can it be meshed, can this model show that bend. Says nothing about other keys.

#include "inputs/keys/validation.h"

namespace throughbend
{
std::vector<Objection> find_weld_objections(const Case &);
} // namespace throughbend
