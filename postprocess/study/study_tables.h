#pragma once
// The tables on the page of a study, as HTML with everything escaped.

#include "postprocess/study/study_words.h"

namespace throughbend
{
/// A table that becomes blocks on a narrow screen, each cell with its head; empty for no
/// rows.
std::string stacked_table(const std::vector<std::string>              &heads,
                          const std::vector<std::vector<std::string>> &rows);

std::string limits_table(const ReportedStudy &study, const ReaderUnits &units);
std::string chances_table(const ReportedStudy &study);
std::string quantiles_table(const ReportedStudy &study, const ReaderUnits &units);
std::string scatter_table(const ReportedStudy &study); ///< what scatters, and by which law
std::string ranks_table(const ReportedStudy &study);   ///< rank correlations
std::string choice_table(const ReportedStudy &study);
std::string passes_table(const ReportedStudy &study, const ReaderUnits &units);

/// Mesh, passes, those without a finding, time.
std::string computed_table(const ReportedStudy &study);
} // namespace throughbend
