#pragma once
// A fit in words for the terminal, in JSON, as a table of residuals and as a chart.

#include "solver/study/fit/fit_judgement.h"

#include <string>
#include <vector>

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

/// Whether the fitted case may be offered to act on.
bool is_offered(const FitJudgement &judgement);

std::string fit_text(const FitReport &report, UnitSystem units);
std::string fit_json(const FitReport &report);
/// A row a reading: travel, force, model, residual, standard error.
std::string residuals_csv(const FitReport &report);
/// Force and residuals over the travel, one SVG document.
std::string fit_chart(const FitReport &report);
/// What stands above the fitted case.
std::string fitted_head(const FitReport &report);
} // namespace throughbend
