#pragma once
// The verb that pushes many sampled coupons, in words. Carried out by throughbend-study.

#include "postprocess/app/study_order.h"
#include "postprocess/verbs/verb.h"

#include <cstdint>

namespace throughbend
{
struct SpreadOrder
{
  StudyOrder    study;
  std::size_t   passes = 400;
  std::uint64_t seed   = 1;
};

/// Throws InputError with the cure.
SpreadOrder spread_order(const VerbArguments &given);

Verb spread_verb();
} // namespace throughbend
