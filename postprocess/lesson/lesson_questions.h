#pragma once
// Questions about a pass with their answers, all worked out from what the run recorded. A
// question that the run cannot answer is not asked. Lays nothing out.

#include "postprocess/report/reported_run.h"

#include <string>
#include <vector>

namespace throughbend
{
struct LessonQuestion
{
  std::string              heading, task;
  std::string              picture;   ///< HTML; may be empty
  std::vector<std::string> choices;   ///< to be ticked
  int                      lines = 2; ///< of space to write on
  std::string              answer;    ///< HTML, for the teacher
};

/// Throws InputError for a run without a finding or without its case: a lesson on half a
/// pass would teach what is not so.
void check_teachable(const RunRecord &run);

/// Of a second coupon, only what differs from coupon to coupon.
enum class Asked
{
  everything,
  the_pass
};

std::vector<LessonQuestion> pass_questions(const ReportedRun &reported,
                                           const ReaderUnits &units, Asked asked);

/// What changes from one coupon to another, which are called so. None where they differ in
/// nothing, in more than three keys, or in the computation.
std::optional<LessonQuestion> change_question(const RunRecord   &first,
                                              const RunRecord   &second,
                                              const std::string &first_name,
                                              const std::string &second_name,
                                              const ReaderUnits &units);
} // namespace throughbend
