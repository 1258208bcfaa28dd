#pragma once
// The tables of a report as HTML: key figures with their margins, inputs as used, how good
// the numbers are, how to make the run again. Text only; the finding's own sentences are
// postprocess/words/finding_words.

#include "postprocess/runs/run_record.h"
#include "postprocess/words/reader_units.h"

namespace throughbend
{
/// A figure in both families of units and what it leaves to a limit or compares with.
struct ReportFigure
{
  std::string name, first, second, remark;
};

/// Those that the run has.
std::vector<ReportFigure> report_figures(const RunRecord &run, const ReaderUnits &units);

/// The warnings that stand wherever results are read.
std::string caution_html();

/// The answers beside the verdict, a paragraph each: the metal, and the accuracy where the
/// figures are not sound.
std::string answers_html(const RunRecord &run, const ReaderUnits &units);

/// What the case says the pass is to show; empty when it says nothing.
std::string lesson_html(const RunRecord &run);

std::string key_figures_html(const RunRecord &run, const ReaderUnits &units);
std::string inputs_html(const RunRecord &run, const ReaderUnits &units);
std::string quality_html(const RunRecord &run);
std::string again_html(const RunRecord &run);
} // namespace throughbend
