#include "postprocess/runs/run_comparison.h"

#include "postprocess/runs/run_badge.h"
#include "postprocess/runs/run_events.h"
#include "postprocess/runs/run_standing.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
std::string otherwise_dash(const std::string &word)
{
  return word.empty() ? "-" : word;
}

std::string held_by(const RunRecord &run)
{
  const std::string jam = run.word("finding.jam");
  return otherwise_dash(jam.empty() ? run.word("finding.held_by") : jam);
}

std::string beyond_end(const RunRecord &run)
{
  const auto beyond = run_beyond(run);
  return beyond ? beyond->end : "-";
}

std::vector<AnswerPair> answer_pairs(const RunRecord &first, const RunRecord &second)
{
  std::vector<AnswerPair> pairs;
  const auto add = [&](const std::string &name, std::string (*of)(const RunRecord &)) {
    pairs.push_back({name, of(first), of(second)});
  };
  add("finding", finding_brief);
  add("held by", held_by);
  add("beyond the ram's force", beyond_end);
  add("metal", metal_brief);
  add("accuracy", [](const RunRecord &run)
      { return otherwise_dash(run.word("numerical_quality.accuracy")); });
  return pairs;
}

/// Both bands together: nobody knows whether the errors of two runs go the same way.
FigurePair pair_of(const ComparedFigure &first, const ComparedFigure &second)
{
  FigurePair pair;
  pair.name   = first.name;
  pair.first  = first.value;
  pair.second = second.value;
  pair.text   = first.text;
  pair.band   = first.band.width + second.band.width;
  pair.source = first.band.source == second.band.source
                    ? first.band.source
                    : first.band.source + "; " + second.band.source;

  constexpr double rounding = 1e-9; // of numbers that were worked out in another order
  const double     size     = std::max(std::abs(pair.first), std::abs(pair.second));
  const double     apart    = std::abs(pair.difference());
  pair.standing             = apart <= rounding * size ? FigurePair::Standing::within_band
                              : std::isnan(pair.band)  ? FigurePair::Standing::no_band
                              : apart > pair.band      ? FigurePair::Standing::beyond_band
                                                       : FigurePair::Standing::within_band;
  return pair;
}

const ComparedFigure *find(const std::vector<ComparedFigure> &figures,
                           const std::string                 &name)
{
  const auto found = std::find_if(figures.begin(), figures.end(),
                                  [&](const auto &figure) { return figure.name == name; });
  return found == figures.end() ? nullptr : &*found;
}

void compare_figures(RunComparison &result, const RunRecord &first, const RunRecord &second)
{
  const std::vector<ComparedFigure> here  = compared_figures(first),
                                    there = compared_figures(second);
  for (const ComparedFigure &figure : here)
    if (const ComparedFigure *const other = find(there, figure.name); other != nullptr)
      result.figures.push_back(pair_of(figure, *other));
    else
      result.lone.push_back({figure.name, true, figure.value, figure.text});
  for (const ComparedFigure &figure : there)
    if (find(here, figure.name) == nullptr)
      result.lone.push_back({figure.name, false, figure.value, figure.text});
}
} // namespace

bool RunComparison::same_answers() const
{
  return obstacles.empty() && std::all_of(answers.begin(), answers.end(),
                                          [](const auto &pair) { return pair.same(); });
}

bool RunComparison::same() const
{
  return same_answers() && lone.empty() &&
         std::all_of(figures.begin(), figures.end(),
                     [](const FigurePair &pair)
                     { return pair.standing == FigurePair::Standing::within_band; });
}

std::string difference_text(const FigurePair &pair, const double difference,
                            const UnitSystem units)
{
  const bool share = pair.text(0.5, units) == percent_text(0.5);
  return share ? decimal_text(100 * difference, 1) + " points"
               : pair.text(difference, units);
}

std::string signed_text(const std::string &text)
{
  return text.empty() || text[0] == '-' ? text : "+" + text;
}

std::string difference_words(const FigurePair &pair, const UnitSystem units)
{
  std::string  words = signed_text(difference_text(pair, pair.difference(), units));
  const double size  = std::abs(pair.first);
  const bool   share = pair.text(0.5, units) == percent_text(0.5);
  if (size > 0 && !share)
    words += ", " + signed_text(percent_text(pair.difference() / size));
  return words;
}

RunComparison compared_runs(const RunRecord &first, const RunRecord &second)
{
  RunComparison result;
  result.keys    = differing_keys({first.known_case ? &*first.known_case : nullptr,
                                second.known_case ? &*second.known_case : nullptr});
  result.answers = answer_pairs(first, second);
  for (const RunRecord *const run : {&first, &second})
    if (const std::string why = why_no_finding(*run); !why.empty())
      result.obstacles.push_back(run->folder.string() + ": " + why);
  if (result.obstacles.empty())
    compare_figures(result, first, second);
  return result;
}
} // namespace throughbend
