#pragma once
// What a choice of a fixture says, as JSON for the store and as text.

#include "postprocess/words/size_limits.h"
#include "solver/study/choose_trials.h"

#include <string>

namespace throughbend
{
struct ChoiceReport
{
  ChoiceKeys    keys;
  ChoiceGoal    goal = ChoiceGoal::least_force;
  ChooseSpace   space;
  FixtureChoice choice;
  std::size_t   metal_not_known = 0; ///< sound passes of which nobody knows
};

/// As solver/study/answers.md has it.
std::string choice_json(const ChoiceReport &report);
std::string choice_words(const ChoiceReport &report, UnitSystem units);

/// The tolerances that were found, by the letters of a drawing.
std::vector<SizeLimits> chosen_limits(const ChoiceReport &report);

std::string to_text(ChoiceGoal goal);
} // namespace throughbend
