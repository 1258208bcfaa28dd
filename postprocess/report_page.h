#pragma once
// Puts a report together: reads the runs, has pictures and charts drawn, and fills the
// page's templates. One HTML text comes out that needs no other file.

#include "inputs/report_words.h"

#include <string>
#include <vector>

namespace throughbend
{
struct Report
{
  std::string              page;  ///< the HTML
  std::vector<std::string> notes; ///< what is incomplete, for the terminal
};

/// Writes the pictures into the runs' folders as well, if they are asked for. Throws
/// InputError for a folder that is no run.
Report make_report(const ReportOrder &order);
} // namespace throughbend
