#pragma once
// A fit and what belongs to it, as words, records and chart take it.

#include "solver/study/fit/fit_judgement.h"

#include <algorithm>
#include <string>

namespace throughbend
{
struct FitReport
{
  const FitQuestion  &question;
  const FitSearch    &search;
  const FitJudgement &judgement;
  const Case         &own;         ///< as told, its mesh that of the fit's passes
  std::string         case_name;   ///< its file
  std::string         fitted_file; ///< where the fitted case was written; empty: it was not
  std::string         mesh, other_mesh; ///< in words: quick, standard
  std::size_t         passes = 0, taken_over = 0;
  double              seconds = 0;
};

/// Low end of the 95 % interval of an estimate; friction and flow stress are not below 0.
inline double low_of(const FitReport &report, const std::size_t k)
{
  const double low = report.search.fit.estimate[k] - report.judgement.half[k];
  return static_cast<FitKey>(k) == FitKey::travel_zero ||
                 static_cast<FitKey>(k) == FitKey::force_zero
             ? low
             : std::max(0., low);
}
} // namespace throughbend
