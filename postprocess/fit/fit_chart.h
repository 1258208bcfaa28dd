#pragma once
// A fit as a picture.

#include "postprocess/fit/fit_report.h"

#include <string>

namespace throughbend
{
/// Force and residuals over the travel, one SVG document.
std::string fit_chart(const FitReport &report);
} // namespace throughbend
