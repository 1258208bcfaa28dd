#pragma once
// The verb that pushes many sampled coupons, in words. Carried out by throughbend-study.

#include "inputs/verb.h"
#include "solver/app/study_order.h"

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
SpreadOrder spread_order(const GivenWords &given);

Verb spread_verb();
} // namespace throughbend
