#pragma once
// What the page of a study and the class page have in common.

#include "postprocess/study/pass_data.h"
#include "postprocess/study/study_page.h"

namespace throughbend
{
/// Which pass the page shows first: that of the case's own values; else the nearest.
std::size_t first_pass(const StudyRecord &record, const std::vector<std::size_t> &among);

/// Whether the pass has the case's own values.
bool is_own(const StudyRecord &record, const StudyPass &pass);

std::vector<std::string> incomplete_reasons(const StudyRecord &record);
std::string              incomplete_html(const std::vector<std::string> &reasons);

/// The place where a page draws a pass, with what is kept of its shapes.
std::string pass_view(const PassData &data);

/// The pass data with `start` and `has_own` put in.
std::string with_start(const PassData &data, const StudyRecord &record, std::size_t start);

/// The page's frame around its body.
std::string whole_page(const StudyRecord &record, const std::string &what,
                       const std::string &body, const std::string &script);

/// The charts of a study in the order of the page, each with a caption.
struct CaptionedChart
{
  std::string name, caption;
  Drawing     drawing;
};
std::vector<CaptionedChart> study_charts(const ReportedStudy &study,
                                         const ReaderUnits   &units);
} // namespace throughbend
