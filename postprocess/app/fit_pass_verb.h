#pragma once
// The verb that finds friction and strength from readings of a push, in words. Carried out
// by throughbend-study.

#include "postprocess/app/study_order.h"
#include "postprocess/verbs/verb.h"

#include <array>
#include <string>

namespace throughbend
{
struct FitPassOrder
{
  StudyOrder          study;
  std::string         readings;
  std::array<bool, 4> held{}; ///< friction, strength, zero of travel, zero of force
};

/// Throws InputError with the cure.
FitPassOrder fit_pass_order(const VerbArguments &given);

Verb fit_pass_verb();
} // namespace throughbend
