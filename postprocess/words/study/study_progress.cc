#include "postprocess/words/study/study_progress.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace throughbend
{
std::string progress_text(const StudyProgress &progress)
{
  std::string text = fmt::format("{} of about {} passes", progress.done,
                                 std::max(progress.planned, progress.done));
  std::string found;
  for (const auto &[outcome, count] : progress.outcomes)
    found += fmt::format("{}{} {}", found.empty() ? "" : ", ", count, outcome);
  if (!found.empty())
    text += " (" + found + ")";
  // Those from the store took no time.
  const std::size_t made = progress.done - progress.taken_over;
  if (made >= 2 && progress.planned > progress.done)
    text += ", about " +
            duration_text(progress.seconds *
                          static_cast<double>(progress.planned - progress.done) /
                          static_cast<double>(made)) +
            " left";
  return text;
}

void StudyLine::show(const StudyProgress &progress)
{
  if (audience_ == Audience::nobody)
    return;
  std::string text = progress_text(progress);
  if (text == shown_)
    return;
  const std::size_t width = text.size();
  std::string       line  = text;
  line.resize(std::max(width, shown_.size()), ' ');
  out_ << '\r' << line << std::flush;
  shown_ = text;
}

void StudyLine::finish()
{
  if (!shown_.empty())
    out_ << '\n' << std::flush;
  shown_.clear();
}
} // namespace throughbend
