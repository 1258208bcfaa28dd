#pragma once
// What a limit study found, as text for people and as JSON for the record.

#include "inputs/units/display_units.h"
#include "solver/study/check_along.h"
#include "solver/study/limit_search.h"

#include <string>
#include <vector>

namespace throughbend
{
/// One key of the study with its answer.
struct KeyLimit
{
  StudyKey                  key;
  LimitRange                range; ///< as the key is shown
  std::vector<LimitChange>  changes;
  std::vector<LimitPlace>   places, undecided;
  std::vector<CheckStretch> check; ///< may be empty
};

/// Whether a pass without a finding leaves a question open: it stands beside a change that
/// is wider than asked for, or between two places of one side.
bool is_open(const KeyLimit &limit);

std::string limit_text(const std::vector<KeyLimit> &limits, const StudyCondition &condition,
                       const std::vector<StudyPass> &passes, const StudyCase &base,
                       UnitSystem units);

std::string limit_json(const std::vector<KeyLimit> &limits, const StudyCondition &condition,
                       const std::vector<StudyPass> &passes);
} // namespace throughbend
