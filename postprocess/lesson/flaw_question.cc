#include "postprocess/lesson/flaw_question.h"

#include "postprocess/html/html_text.h"
#include "postprocess/lesson/lesson_picture.h"

#include <cmath>

namespace throughbend
{
namespace
{
std::string line_words(const FlawLine line)
{
  switch (line)
  {
  case FlawLine::centre:
    return "the middle of the weld";
  case FlawLine::left:
    return "the left fusion line";
  case FlawLine::right:
    break;
  }
  return "the right fusion line";
}
} // namespace

std::optional<LessonQuestion> flaw_question(const ReportedRun &reported,
                                            const ReaderUnits &units)
{
  const RunRecord &run = reported.run;
  LessonQuestion   q;
  const char      *name[] = {"flaw", "flaw2", "flaw3"};
  for (std::size_t i = 0; i < most_flaws; ++i)
  {
    const Flaw       &flaw = run.known_case->flaws.each[i];
    const std::string at   = std::string("flaws.") + name[i] + ".";
    const double      open = run.number(at + "largest_opening_mm");
    if (!flaw.present() || !std::isfinite(open))
      continue;
    const std::string which = name[i];
    q.task += "The weld did not fuse along " + line_words(flaw.line) + ", from " +
              units.length(flaw.from) + " to " + units.length(flaw.depth) + " below its " +
              (flaw.surface == BendKind::face ? "face" : "root") + " (" + which + "). ";
    std::string answer = which + " opens by " + units.length(open) + " at most, at " +
                         units.length(run.number(at + "largest_opening_travel_mm")) +
                         " of travel.";
    const double limit  = run.number(at + "opening_limit_mm"),
                 passed = run.number(at + "limit_passed_travel_mm");
    if (std::isfinite(limit))
      answer += std::isfinite(passed)
                    ? " It passes the limit of " + units.length(limit) + " at " +
                          units.length(passed) + "."
                    : " It stays within the limit of " + units.length(limit) + ".";
    q.answer += paragraph(answer);
  }
  if (q.answer.empty())
    return {};
  q.heading = "Does the bend open the flaw?";
  q.task += std::string("The ") +
            (run.known_case->weld.bend == BendKind::root   ? "root"
             : run.known_case->weld.bend == BendKind::face ? "face"
                                                           : "side") +
            " is stretched. Say whether the bend opens the flaw or presses it shut, and "
            "estimate how far.";
  if (!reported.shapes.empty())
    q.picture = outline_picture(reported.shapes, flat_shape(reported.shapes),
                                "The flat coupon with the borders of weld and HAZ");
  if (const std::string note = run.word("flaws_note"); !note.empty())
    q.answer += paragraph(note);
  return q;
}
} // namespace throughbend
