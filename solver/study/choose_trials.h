#pragma once
// The search for a fixture on real cases: `check` as the closed forms, passes of a study as
// the passes.

#include "solver/study/choose_goal.h"
#include "solver/study/choose_search.h"
#include "solver/study/study_case.h"
#include "solver/study/study_plan.h"

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace throughbend
{
/// The keys of a study for a choice: free ones first, then those of the family.
struct ChoiceKeys
{
  std::vector<StudyKey> free, family;
  std::vector<StudyKey> all() const;
};

/// Makes the points and gives their passes, one each, in order. Throws StudyStopped.
using PassesOf = std::function<std::vector<StudyPass>(const std::vector<StudyPoint> &)>;

/// The first line of a pass, in the units of its reader.
using VerdictOf = std::function<std::string(const StudyPass &)>;

class CaseTrials : public FixtureTrials
{
public:
  CaseTrials(const StudyCase &base, ChoiceKeys keys, ChoiceGoal goal, PassesOf passes,
             VerdictOf verdict);

  Screened            screen(const FixtureTrial &trial) override;
  std::vector<Judged> push(const std::vector<FixtureTrial> &trials) override;

  /// Sound passes so far of which nobody knows whether their metal bears it.
  std::size_t metal_not_known() const { return metal_not_known_.size(); }

  /// The point of the study, with the frame's opening where it is.
  StudyPoint point(const FixtureTrial &trial) const;

private:
  Judged judged(const Case &c, const StudyPass &pass) const;

  const StudyCase                &base_;
  ChoiceKeys                      keys_;
  ChoiceGoal                      goal_;
  PassesOf                        passes_;
  VerdictOf                       verdict_;
  std::map<std::string, Screened> known_;           ///< by case hash
  std::set<std::string>           metal_not_known_; ///< case hashes
};
} // namespace throughbend
