#pragma once
// Passes that nobody pushed: a finding by a formula, for tests of plans, engine and store.
// Everything here is invented.

#include "solver/study/file/study_record.h"
#include "solver/study/study_case.h"
#include "solver/study/study_plan.h"
#include "tests/support/case_texts.h"

#include <functional>
#include <string>

namespace throughbend
{
inline StudyPass made_up(const std::string &outcome)
{
  StudyPass pass;
  pass.outcome  = outcome;
  pass.verdict  = outcome + ", made up";
  pass.evidence = "Invented.";
  pass.metal    = outcome == "undecided" ? "not known" : "within";
  pass.accuracy = "sound";
  pass.travel   = {0, 1.5};
  pass.force    = {0, 1000.0 / 3};
  pass.figures  = {{"peak_ram_force_N", 1000.0 / 3}, {"capacity_margin", 0.25}};
  pass.moments  = {{0, 0, {"coupon", {0, 1, 1, 0}, {0, 0, 1, 1}}, {}}};
  return pass;
}

/// A short case that can be pushed.
inline std::string case_text()
{
  return workshop_text("[mesh]\nlevel = quick\n");
}

/// Carries out a plan in the order of its points, as one worker would.
inline std::size_t carry_out(StudyPlan                                            &plan,
                             const std::function<std::string(const StudyPoint &)> &finding)
{
  std::size_t number = 0;
  while (const std::optional<StudyPoint> point = plan.next())
    plan.take(*point, number++, made_up(finding(*point)));
  return number;
}
} // namespace throughbend
