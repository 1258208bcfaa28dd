#pragma once
// The question about places that did not fuse: whether the bend opens them, and how far.

#include "postprocess/lesson/lesson_questions.h"

namespace throughbend
{
/// None for a coupon without flaws, or a run that did not record how far they open.
std::optional<LessonQuestion> flaw_question(const ReportedRun &reported,
                                            const ReaderUnits &units);
} // namespace throughbend
