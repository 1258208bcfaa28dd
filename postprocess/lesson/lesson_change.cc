#include "postprocess/html/html_text.h"
#include "postprocess/lesson/lesson_questions.h"
#include "postprocess/runs/run_comparison.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace throughbend
{
namespace
{
/// Of all figures those that a class can judge.
bool is_asked(const std::string &name)
{
  static const std::array<const char *, 6> asked = {"peak ram force",
                                                    "travel of the peak ram force",
                                                    "largest elongation of the convex face",
                                                    "largest gap under the nose",
                                                    "springback of the left leg",
                                                    "released elastic energy"};
  return std::any_of(asked.begin(), asked.end(),
                     [&](const char *one) { return name == one; });
}
} // namespace

std::optional<LessonQuestion> change_question(const RunRecord   &first,
                                              const RunRecord   &second,
                                              const std::string &first_name,
                                              const std::string &second_name,
                                              const ReaderUnits &units)
{
  const RunComparison       both = compared_runs(first, second);
  std::vector<DifferingKey> keys;
  for (const DifferingKey &key : both.keys)
    if (key.option->section != "case") // a title may tell the answer
      keys.push_back(key);
  constexpr std::size_t most_keys = 3;
  if (keys.empty() || keys.size() > most_keys || !both.obstacles.empty() ||
      std::any_of(keys.begin(), keys.end(),
                  [](const DifferingKey &key) { return is_numerical(*key.option); }))
    return {};
  LessonQuestion q;
  q.heading = "What changes from " + first_name + " to " + second_name + "?";
  q.task    = second_name + " is " + first_name + " with ";
  for (std::size_t i = 0; i < keys.size(); ++i)
    q.task += (i == 0 ? "" : ", ") + keys[i].option->key() + " " + keys[i].values[1] +
              " in place of " + keys[i].values[0];
  q.task += ". Say for each figure whether it gets larger, smaller, or stays.";

  // An angle or a share is the same in both families.
  const auto shown = [&](const double value, const FigurePair &pair)
  {
    const std::string text = pair.text(value, units.first());
    return text == pair.text(value, units.second()) ? text : units.both(value, pair.text);
  };
  std::vector<std::vector<std::string>> rows;
  for (const AnswerPair &answer : both.answers)
    if (answer.name == "finding" || answer.name == "metal")
      rows.push_back({answer.name, answer.first, answer.second,
                      answer.same() ? "the same" : "differs"});
  for (const FigurePair &pair : both.figures)
  {
    if (!is_asked(pair.name) || !std::isfinite(pair.first) || !std::isfinite(pair.second))
      continue;
    q.choices.push_back(pair.name + ": larger / smaller / stays");
    const std::string way = pair.difference() > 0 ? "larger" : "smaller";
    rows.push_back({pair.name, shown(pair.first, pair), shown(pair.second, pair),
                    pair.difference() == 0 ? "the same"
                    : pair.standing == FigurePair::Standing::no_band
                        ? way + "; how exact is not known"
                    : pair.standing == FigurePair::Standing::within_band
                        ? "stays: no more than the computation's own error"
                        : way});
  }
  q.answer = table({"", first_name, second_name, "what changes"}, rows);
  if (first.word("finding.outcome") == "over-capacity" ||
      second.word("finding.outcome") == "over-capacity")
    q.answer +=
        paragraph("Where the ram's capacity ran out, the peak force is that capacity, "
                  "not what the coupon takes.");
  return q;
}
} // namespace throughbend
