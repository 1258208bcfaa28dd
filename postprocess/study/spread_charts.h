#pragma once
// Charts of a spread: how often which force and stretch comes out, and which key matters.

#include "postprocess/study/drawing.h"
#include "postprocess/study/study_words.h"

namespace throughbend
{
/// A figure of all passes that have a finding, by its name in run.json: those that left the
/// fixture apart from the others, whose figure is that of the place where they stopped.
Drawing histogram_chart(const ReportedStudy &study, const std::string &figure,
                        const ReaderUnits &units);

/// A limit for a figure that all passes share, with its name; NaN where there is none or
/// it differs between the passes.
struct SharedLimit
{
  double      value;
  std::string name;
};
SharedLimit shared_limit(const ReportedStudy &study, const std::string &figure);

/// First-order and total index of every key, with their errors.
Drawing weights_chart(const ReportedStudy &study, const std::string &figure);

/// The figures that `answers` gives weights, or quantiles, for.
std::vector<std::string> figures_in(const JsonMembers &answers, const std::string &group);
} // namespace throughbend
