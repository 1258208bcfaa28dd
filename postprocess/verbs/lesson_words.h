#pragma once
// The words of the verb `lesson`: shared by the front program, which explains and checks
// them, and by the companion that makes the sheets. Reads no run.

#include "inputs/text/own_file.h"
#include "postprocess/verbs/verb.h"

#include <string>
#include <string_view>
#include <vector>

namespace throughbend
{
constexpr std::string_view lesson_mark =
    "<meta name=\"generator\" content=\"throughbend lesson\">";

/// By which the companion throughbend-report, which makes both, is told that it is to make
/// sheets and no report.
constexpr const char *lesson_order_word = "--lesson";

/// The verb with all but what carries it out, which differs in the two programs.
Verb lesson_verb();

/// What was asked for.
struct LessonOrder
{
  std::vector<std::string> runs;                       ///< folders
  std::string              page;                       ///< file of the questions
  std::string              answers;                    ///< file of the teacher's page
  std::string              title;                      ///< of both; empty: a plain one
  UnitSystem               units = UnitSystem::metric; ///< which come first, and the paper
  ForeignFile              foreign = ForeignFile::keep;
};

/// Throws InputError, with the cure, for words that cannot be followed.
LessonOrder lesson_order(const VerbArguments &given);
} // namespace throughbend
