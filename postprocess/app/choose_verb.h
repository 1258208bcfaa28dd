#pragma once
// The verb that looks for a fixture, in words. Carried out by throughbend-study.

#include "postprocess/app/study_order.h"
#include "postprocess/verbs/verb.h"
#include "solver/study/choose_goal.h"

#include <string>
#include <vector>

namespace throughbend
{
/// A key with the values given for it.
struct GivenValues
{
  std::string              option; ///< --free
  std::string              key;
  std::vector<std::string> list; ///< FROM and TO of a range
  bool                     is_range = false;
  std::size_t              even     = 0; ///< levels of a range; 0: none or `step`
  std::string              step;         ///< `1 mm`; may be empty
};

struct ChooseOrder
{
  StudyOrder               study;
  std::vector<GivenValues> free, family;
  ChoiceGoal               goal   = ChoiceGoal::least_force;
  std::size_t              sample = 16;
};

/// Throws InputError with the cure.
ChooseOrder choose_order(const VerbArguments &given);

Verb choose_verb();
} // namespace throughbend
