#include "postprocess/verbs/lesson_words.h"

#include "inputs/text/input_error.h"

#include <fmt/core.h>

#include <filesystem>

namespace throughbend
{
namespace
{
constexpr std::size_t most_coupons = 6; // more sheets than a class has time for

/// lesson.html becomes lesson-answers.html.
std::string answers_beside(const std::string &page)
{
  const std::filesystem::path file(page);
  return (file.parent_path() /
          (file.stem().string() + "-answers" + file.extension().string()))
      .string();
}
} // namespace

Verb lesson_verb()
{
  Verb verb;
  verb.name    = "lesson";
  verb.operand = "RUN";
  verb.summary =
      "a sheet of questions to print for a class, and its answers for the teacher";
  verb.about =
      "Makes two HTML pages to print, on A4, or Letter with --units us: a sheet of "
      "questions "
      "about one or several passes, with pictures to mark and space for answers, and the "
      "teacher's page with the answers. Every answer is computed from the runs; a question "
      "that a run cannot answer is left out. Of several runs, each that differs from the "
      "first in at most three keys gets a question about what changes: throughbend lesson "
      "runs/greased runs/dry. The sheet of questions holds no answer, nor the runs' "
      "titles.";
  verb.options = {
      {"page",
       "FILE",
       "where the questions go; the answers go beside it, as lesson-answers.html beside "
       "lesson.html. Default lesson.html here",
       {}},
      {"title", "TEXT", "heading of both pages; default: Guided bend test", {}},
      {"overwrite",
       "",
       "replace files that are in the pages' place and were not made by lesson; its own "
       "pages it replaces anyway",
       {}},
      units_option("first, and the paper; the pages have both; default metric")};
  verb.most_operands = most_coupons;
  return verb;
}

LessonOrder lesson_order(const VerbArguments &given)
{
  LessonOrder order;
  order.runs = given.operands;
  if (order.runs.empty())
    throw InputError("lesson about which run? Name its folder: throughbend lesson "
                     "runs/my-case");
  if (given.has("page") && given.value("page").empty())
    throw InputError("--page names no file: --page lesson.html");
  order.page    = given.value("page", "lesson.html"); // a run's folder may be replaced
  order.answers = answers_beside(order.page);
  order.title   = given.value("title", "Guided bend test");
  order.units   = units_of(given);
  order.foreign = given.has("overwrite") ? ForeignFile::replace : ForeignFile::keep;
  return order;
}
} // namespace throughbend
