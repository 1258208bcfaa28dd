#pragma once
// Lays out the lesson's two pages: questions for the class, answers for the teacher. The
// questions themselves are postprocess/lesson/lesson_questions.

#include "postprocess/report/reported_run.h"
#include "postprocess/verbs/lesson_words.h"

#include <string>
#include <vector>

namespace throughbend
{
struct LessonPages
{
  std::string              questions, answers; ///< HTML
  std::vector<std::string> notes; ///< for the terminal: what was not asked, and why
};

/// Throws InputError for a run that cannot be taught.
LessonPages lesson_pages(const std::vector<ReportedRun> &all, const LessonOrder &order);
} // namespace throughbend
