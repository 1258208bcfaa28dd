#pragma once
// What the closed forms of `check` say along a key: stretches of one verdict, each with the
// line that decides. Set beside what passes found.

#include "solver/screening/screening.h"
#include "solver/study/study_case.h"

#include <string>
#include <vector>

namespace throughbend
{
struct CheckStretch
{
  double      from = 0, to = 0; ///< [N, mm, MPa, s; -]
  Verdict     verdict = Verdict::ok;
  std::string line; ///< key of the first line with that verdict, `clearance`; of ok: empty
  std::string says; ///< the line in words
};

/// From `from` to `to`, in their order; empty where a case between them cannot be read. Two
/// stretches meet to a thousandth of the way. The rule that a case names is left out: it
/// rules what may be used, not what goes through.
std::vector<CheckStretch> check_along(const StudyCase &base, const StudyKey &key,
                                      double from, double to);
} // namespace throughbend
