// The companion that makes reports: loads VTK, which the front program does without.
// Started by it with the words behind `report`.

#include "inputs/text/input_error.h"
#include "inputs/text/shown_text.h"
#include "postprocess/lesson/lesson_pages.h"
#include "postprocess/pictures/picture_folder.h"
#include "postprocess/report/index_page.h"
#include "postprocess/report/report_page.h"
#include "postprocess/study/study_report.h"
#include "postprocess/verbs/guarded.h"
#include "postprocess/verbs/lesson_words.h"
#include "postprocess/verbs/verb_help.h"

#include <algorithm>
#include <iostream>

namespace throughbend
{
namespace
{
void say(const Report &made, const std::string &page)
{
  for (const std::string &note : made.notes)
    std::cerr << "note: " << shown_text(note) << '\n';
  std::cout << "page      " << shown_text(page) << '\n';
}

void say_pictures(const ReportOrder &order)
{
  if (order.pictures == Pictures::drawn)
    for (const std::string &run : order.runs)
      if (std::filesystem::exists(std::filesystem::path(run) / "pictures"))
        std::cout << "pictures  "
                  << shown_text((std::filesystem::path(run) / "pictures").string()) << '\n';
}

/// Of the run's own page, where an index leads to it.
std::string own_page(const std::string &run)
{
  return (std::filesystem::path(run) / "report.html").string();
}

/// Throws where a file of somebody else's is in the way, or one page would replace another.
/// A folder that is no run is told later, and better.
void check_places(const ReportOrder &order)
{
  namespace fs = std::filesystem;
  std::error_code fault;
  if (order.index.empty())
  {
    if (fs::is_directory(order.runs.front(), fault))
      check_place("page", order.page, report_mark, order.foreign);
    return;
  }
  check_place("index", order.index, report_mark, order.foreign);
  for (const std::string &run : order.runs)
    if (fs::is_directory(run, fault))
    {
      check_place("index", own_page(run), report_mark, order.foreign);
      if (fs::weakly_canonical(own_page(run), fault) ==
          fs::weakly_canonical(order.index, fault))
        throw InputError("--index " + order.index +
                         ": that is where the page of the run itself goes. Choose another "
                         "name.");
    }
}

/// One page, of one run or of several compared.
void make_page(const ReportOrder &order)
{
  std::vector<ReportedRun> all;
  for (const std::string &run : order.runs)
    all.push_back(reported_run(run, order, ReaderUnits(order.units)));
  const Report made = make_report(all, order.title, order.units);
  for (const ReportedRun &reported : all)
    save_pictures(reported);
  save_page(order.page, made.page);
  say(made, order.page);
  say_pictures(order);
}

/// A page of each run's own, and one that leads to them.
void make_index(const ReportOrder &order)
{
  IndexPage index(order.index, order.title, order.units);
  for (const std::string &run : order.runs)
  {
    const ReportedRun reported = reported_run(run, order, ReaderUnits(order.units));
    const Report      made     = make_report({reported}, "", order.units);
    const std::string page     = own_page(run);
    index.add(reported, page);
    save_pictures(reported);
    save_page(page, made.page);
    say(made, page);
  }
  save_page(order.index, index.html());
  std::cout << "index     " << shown_text(order.index) << '\n';
}

ExitCode lesson(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(lesson_verb(), words);
  if (given.help)
    return show(verb_help(lesson_verb()));
  const LessonOrder order = lesson_order(given);
  ReportOrder       without_pictures;
  without_pictures.pictures = Pictures::left_out;
  std::vector<ReportedRun> all;
  for (const std::string &run : order.runs)
    all.push_back(reported_run(run, without_pictures, ReaderUnits(order.units)));
  const LessonPages made = lesson_pages(all, order);
  check_place("page", order.page, lesson_mark, order.foreign);
  check_place("page", order.answers, lesson_mark, order.foreign);
  save_page(order.page, made.questions);
  save_page(order.answers, made.answers);
  for (const std::string &note : made.notes)
    std::cerr << "note: " << shown_text(note) << '\n';
  std::cout << "questions " << shown_text(order.page) << "\nanswers   "
            << shown_text(order.answers) << '\n';
  return ExitCode::finding;
}

ExitCode report(const std::vector<std::string> &words)
{
  if (!words.empty() && words.front() == lesson_order_word)
    return lesson({words.begin() + 1, words.end()});
  if (const std::string text = companion_text(
          "throughbend-report", "throughbend-report " THROUGHBEND_VERSION "\n",
          report_verb(), words);
      !text.empty())
    return show(text);
  const VerbArguments given = verb_arguments(report_verb(), words);
  if (given.help)
    return show(verb_help(report_verb()));
  const ReportOrder order = report_order(given);
  if (is_study_order(order))
  {
    report_study(order);
    return ExitCode::finding;
  }
  check_places(order);
  if (order.index.empty())
    make_page(order);
  else
    make_index(order);
  return ExitCode::finding;
}
} // namespace
} // namespace throughbend

int main(int argc, char **argv)
{
  using namespace throughbend;
  return static_cast<int>(guarded(
      [&] {
        return report({argv + std::min(argc, 1), argv + argc});
      }));
}
