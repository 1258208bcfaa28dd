#pragma once
// The manual page, made from the verbs' words and the table of keys.

#include "postprocess/verbs/verb.h"

namespace throughbend
{
/// In the man macros of roff (man(7)).
std::string manual_page(const std::vector<Verb> &verbs);
} // namespace throughbend
