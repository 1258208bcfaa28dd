#include "inputs/text/input_error.h"
#include "inputs/text/plain_text.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/text_columns.h"
#include "postprocess/app/compare_many.h"
#include "postprocess/app/gather_verb.h"
#include "postprocess/app/help.h"
#include "postprocess/runs/account_text.h"
#include "postprocess/runs/run_comparison.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
std::string cell(const std::string &text)
{
  return shown_text(clipped(text, widest_cell));
}

std::vector<std::string> figure_row(const FigurePair &pair, const UnitSystem units)
{
  const double size = std::abs(pair.first);
  return {pair.name,
          pair.text(pair.first, units),
          pair.text(pair.second, units),
          signed_text(difference_text(pair, pair.difference(), units)),
          size > 0 ? signed_text(percent_text(pair.difference() / size)) : "-",
          std::isnan(pair.band) ? "not known"
          : pair.band == 0      ? "none"
                                : difference_text(pair, pair.band, units),
          pair.source};
}

std::string counted(const std::size_t n, const std::string &one, const std::string &more)
{
  return n == 1 ? "1 " + one : fmt::format("{} {}", n, more);
}

std::string case_lines(const RunComparison &compared)
{
  if (compared.keys.empty())
    return "Case: the same in every key.\n";
  const auto numerical =
      std::count_if(compared.keys.begin(), compared.keys.end(),
                    [](const DifferingKey &key) { return is_numerical(*key.option); });
  TextColumns columns({"key", "first", "second", ""});
  for (const DifferingKey &key : compared.keys)
    columns.add({key.option->key(), cell(key.values[0]), cell(key.values[1]),
                 is_numerical(*key.option) ? "numerical setting" : ""});
  return "Case: " + counted(compared.keys.size(), "key differs", "keys differ") +
         (numerical > 0 ? fmt::format(", {} of them numerical settings", numerical) : "") +
         ".\n" + columns.text();
}

std::string answer_lines(const RunComparison &compared)
{
  if (compared.same_answers())
  {
    std::string text = "Finding: the same, " + compared.answers.front().first;
    for (const AnswerPair &pair : compared.answers)
      if (&pair != &compared.answers.front() && pair.first != "-")
        text += "; " + pair.name + " " + pair.first;
    return text + ".\n";
  }
  TextColumns columns({"answer", "first", "second", ""});
  std::string in; // not the finding itself, where only the accuracy differs
  for (const AnswerPair &pair : compared.answers)
  {
    columns.add({pair.name, pair.first, pair.second, pair.same() ? "" : "differs"});
    if (!pair.same())
      in += (in.empty() ? "" : ", ") + pair.name;
  }
  return (compared.obstacles.empty() ? "Answers: they differ in " + in + ".\n"
                                     : "Finding: only one of them has one, or neither.\n") +
         columns.text();
}

std::string figure_lines(const RunComparison &compared, const Listed listed,
                         const UnitSystem units)
{
  if (!compared.obstacles.empty())
  {
    std::string text = "Figures: not compared.\n";
    for (const std::string &obstacle : compared.obstacles)
      text += "  " + shown_text(obstacle) + "\n";
    return text;
  }
  using Standing    = FigurePair::Standing;
  const auto number = [&](const Standing standing)
  {
    return static_cast<std::size_t>(
        std::count_if(compared.figures.begin(), compared.figures.end(),
                      [&](const FigurePair &pair) { return pair.standing == standing; }));
  };
  const std::size_t beyond = number(Standing::beyond_band),
                    within = number(Standing::within_band),
                    open   = number(Standing::no_band);
  std::string text =
      "Figures: " + counted(beyond, "differs", "differ") +
      " by more than the numerical band, " + std::to_string(within) + " by no more" +
      (open > 0 ? fmt::format(", and of {} that differ no band is known", open) : "") +
      ".\n";
  TextColumns columns({"figure", "first", "second", "difference", "per cent", "band",
                       "source of the band"});
  for (const FigurePair &pair : compared.figures)
    if (listed == Listed::all || pair.standing != Standing::within_band)
    {
      std::vector<std::string> row = figure_row(pair, units);
      if (listed == Listed::all && pair.standing == Standing::within_band)
        row.front() += " (within)";
      columns.add(row);
    }
  if (listed == Listed::all ? !compared.figures.empty() : beyond + open > 0)
    text += columns.text();
  for (const LoneFigure &figure : compared.lone)
    text += "  only the " + std::string(figure.of_first ? "first" : "second") +
            " run has: " + figure.name + ", " + figure.text(figure.value, units) + "\n";
  if (listed == Listed::differing && within > 0)
    text += "  " + counted(within, "figure is", "figures are") +
            " not listed: within the numerical band. --all lists " +
            (within == 1 ? "it" : "them") + ".\n";
  return text +
         wrapped("The numerical band is how far mesh, steps and contact alone may put "
                 "the two figures apart, with both errors added up. It does not contain "
                 "the scatter of metal and friction, which is mostly wider.",
                 "  ", 92);
}

std::string run_line(const char *place, const RunRecord &run, const UnitSystem units)
{
  const std::string verdict = account_text(run, "finding.verdict", units);
  const std::string made    = run.word("made_with.git_revision");
  return std::string(place) + shown_text(run.folder.string()) + "\n" +
         (verdict.empty() ? "" : wrapped(shown_text(verdict), "          ", 92)) +
         "          throughbend " + shown_text(run.word("made_with.version")) +
         (made.empty() ? "" : " " + shown_text(made)) + "\n";
}

std::string accuracy_lines(const std::vector<RunRecord> &runs)
{
  std::string text;
  for (const RunRecord &run : runs)
    if (run.word("numerical_quality.accuracy") == "low")
      text += "  The accuracy of " + shown_text(run.folder.string()) +
              " is low: its figures may be off by more than the band.\n";
  return text;
}

std::string two_runs_text(const std::vector<RunRecord> &runs, const RunComparison &compared,
                          const Listed listed, const UnitSystem units)
{
  return run_line("first     ", runs[0], units) + run_line("second    ", runs[1], units) +
         "\n" + case_lines(compared) + "\n" + answer_lines(compared) + "\n" +
         figure_lines(compared, listed, units);
}

ExitCode carry_out(const std::vector<std::string> &words)
{
  const VerbArguments given = verb_arguments(compare_verb(), words);
  if (given.help)
    return show(verb_help(compare_verb()));
  if (given.operands.size() < 2)
    throw InputError("compare takes two runs or more: throughbend compare runs/one "
                     "runs/other. The first is the one that the others are compared with.");
  std::vector<RunRecord> runs;
  for (const std::string &folder : given.operands)
    runs.push_back(read_run_summary(folder));
  std::vector<RunComparison> compared;
  for (std::size_t i = 1; i < runs.size(); ++i)
    compared.push_back(compared_runs(runs.front(), runs[i]));
  const UnitSystem units  = units_of(given);
  const Listed     listed = given.has("all") ? Listed::all : Listed::differing;
  show(shown_lines((runs.size() == 2 ? two_runs_text(runs, compared.front(), listed, units)
                                     : many_runs_text(runs, compared, listed, units)) +
                   accuracy_lines(runs)));
  const auto each = [&](const auto &holds)
  { return std::all_of(compared.begin(), compared.end(), holds); };
  if (!each([](const RunComparison &pair) { return pair.obstacles.empty(); }))
    return ExitCode::undecided;
  return given.has("expect") && !each([](const RunComparison &pair) { return pair.same(); })
             ? ExitCode::unexpected
             : ExitCode::finding;
}
} // namespace

Verb compare_verb()
{
  return {
      "compare",
      "RUN RUN",
      "two runs or more: what differs in case, finding and figures",
      "Compares runs with the first one: in which keys their cases differ, whether they "
      "came to the same finding, and which figures differ by more than the numerical band. "
      "The band is how far mesh, steps and contact alone may put two figures apart. It "
      "comes "
      "from the run's own error bars (push --bars) where it has them. Otherwise it comes "
      "from the ripple and the errors of its record, or from what was measured over the "
      "examples for its mesh level (tests/verify/figure_bands.md). Figures within the band "
      "are counted, not listed. Where no band is known for the settings, every figure that "
      "differs is listed. throughbend report RUN RUN ... draws the force curves of all "
      "runs "
      "in one chart. Exit code 0: the runs were compared. 3: one of them has no finding, "
      "so "
      "its figures are not compared. 2: one of them cannot be read by this version.",
      {{"all", "", "list figures within the band, too", {}},
       {"expect",
        "same",
        "exit code 1 unless every run has the answers of the first and all figures within "
        "the band; the cases may differ",
        {"same"}},
       units_option("of the printed figures; keys of a case are printed in mm, N, MPa")},
      CaseKeys::none,
      1000,
      carry_out};
}
} // namespace throughbend
