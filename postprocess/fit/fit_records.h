#pragma once
// A fit as files: JSON, a table of residuals, the head of the fitted case.

#include "postprocess/fit/fit_report.h"

#include <string>

namespace throughbend
{
std::string fit_json(const FitReport &report);
/// A row a reading: travel, force, model, residual, standard error.
std::string residuals_csv(const FitReport &report);
/// What stands above the fitted case.
std::string fitted_head(const FitReport &report);
} // namespace throughbend
