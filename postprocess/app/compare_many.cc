#include "postprocess/app/compare_many.h"

#include "inputs/text/plain_text.h"
#include "inputs/text/shown_text.h"
#include "inputs/text/text_columns.h"

#include <fmt/core.h>

#include <algorithm>

namespace throughbend
{
namespace
{
using Rows = std::vector<std::vector<std::string>>;

constexpr std::size_t beside = 4; // runs beside the first that a terminal has room for

std::string run_list(const std::vector<RunRecord> &runs)
{
  std::string text;
  for (std::size_t i = 0; i < runs.size(); ++i)
    text += fmt::format("{:>4}  {}\n", i + 1, shown_text(runs[i].folder.string()));
  return text;
}

/// Rows of a name and a cell for each run, in blocks of columns: the first run stands in
/// each block.
std::string blocks(const std::string &what, const Rows &rows, const std::size_t n_runs)
{
  std::string text;
  for (std::size_t from = 1; from < n_runs; from += beside)
  {
    const std::size_t        to    = std::min(from + beside, n_runs);
    std::vector<std::string> heads = {what, "run 1"};
    for (std::size_t i = from; i < to; ++i)
      heads.push_back(fmt::format("run {}", i + 1));
    TextColumns columns(heads);
    for (const std::vector<std::string> &row : rows)
    {
      std::vector<std::string> cells = {row[0], row[1]};
      cells.insert(cells.end(), row.begin() + static_cast<std::ptrdiff_t>(from) + 1,
                   row.begin() + static_cast<std::ptrdiff_t>(to) + 1);
      columns.add(cells);
    }
    text += columns.text();
  }
  return text;
}

std::string case_block(const std::vector<RunRecord> &runs)
{
  Rows rows;
  for (const DifferingKey &key : differing_keys(cases_of(runs)))
  {
    rows.push_back({key.option->key()});
    for (const std::string &value : key.values)
      rows.back().push_back(shown_text(clipped(value, widest_cell / 2)));
  }
  return rows.empty()
             ? "Case: the same in every key.\n"
             : fmt::format("Case: {} not the same in all runs.\n",
                           rows.size() == 1 ? "1 key is"
                                            : fmt::format("{} keys are", rows.size())) +
                   blocks("key", rows, runs.size());
}

std::string answer_block(const std::vector<RunComparison> &compared)
{
  Rows rows;
  for (std::size_t k = 0; k < compared.front().answers.size(); ++k)
  {
    const AnswerPair &first = compared.front().answers[k];
    rows.push_back({first.name, first.first});
    for (const RunComparison &pair : compared)
      rows.back().push_back(pair.answers[k].second);
  }
  const bool same = std::all_of(compared.begin(), compared.end(),
                                [](const auto &pair) { return pair.same_answers(); });
  return std::string(same ? "Finding: the same in all runs.\n"
                          : "Finding: not the same in all runs.\n") +
         blocks("answer", rows, compared.size() + 1);
}

/// A figure of any run: its name, the first run's value, and the pair with each other run.
struct FigureRow
{
  std::string                     name, first;
  std::vector<const FigurePair *> pairs;
  std::vector<std::string>        lone; ///< value of a run that has it without the first
};

FigureRow &row_of(std::vector<FigureRow> &rows, const std::string &name,
                  const std::size_t n)
{
  const auto found = std::find_if(rows.begin(), rows.end(),
                                  [&](const FigureRow &row) { return row.name == name; });
  if (found != rows.end())
    return *found;
  rows.push_back({name, "-", std::vector<const FigurePair *>(n, nullptr),
                  std::vector<std::string>(n, "-")});
  return rows.back();
}

std::vector<FigureRow> figure_rows(const std::vector<RunComparison> &compared,
                                   const UnitSystem                  units)
{
  const std::size_t      n = compared.size();
  std::vector<FigureRow> rows;
  for (std::size_t i = 0; i < n; ++i)
  {
    for (const FigurePair &pair : compared[i].figures)
    {
      FigureRow &row = row_of(rows, pair.name, n);
      row.first      = pair.text(pair.first, units);
      row.pairs[i]   = &pair;
    }
    for (const LoneFigure &figure : compared[i].lone)
    {
      FigureRow &row                              = row_of(rows, figure.name, n);
      (figure.of_first ? row.first : row.lone[i]) = figure.text(figure.value, units);
    }
  }
  return rows;
}

std::string cell(const FigureRow &row, const std::size_t i, const UnitSystem units)
{
  const FigurePair *const pair = row.pairs[i];
  if (pair == nullptr)
    return row.lone[i];
  std::string text = pair->text(pair->second, units);
  if (pair->standing != FigurePair::Standing::within_band || pair->difference() != 0)
    text += " (" + difference_words(*pair, units) + ")";
  return text + (pair->standing == FigurePair::Standing::beyond_band ? " *"
                 : pair->standing == FigurePair::Standing::no_band   ? " ?"
                                                                     : "");
}

bool differs(const FigureRow &row)
{
  for (std::size_t i = 0; i < row.pairs.size(); ++i)
    if (row.pairs[i] == nullptr
            ? row.first != "-" || row.lone[i] != "-"
            : row.pairs[i]->standing != FigurePair::Standing::within_band)
      return true;
  return false;
}

std::string figure_block(const std::vector<RunComparison> &compared, const Listed listed,
                         const UnitSystem units)
{
  std::string text;
  for (const RunComparison &pair : compared)
    for (const std::string &obstacle : pair.obstacles)
      if (const std::string line = "  " + shown_text(obstacle) + "\n";
          text.find(line) == std::string::npos)
        text += line;
  if (!text.empty())
    text = "Figures of these are not compared:\n" + text;
  Rows        rows;
  std::size_t within = 0;
  for (const FigureRow &row : figure_rows(compared, units))
    if (listed == Listed::all || differs(row))
    {
      rows.push_back({row.name, row.first});
      for (std::size_t i = 0; i < compared.size(); ++i)
        rows.back().push_back(cell(row, i, units));
    }
    else
      ++within;
  text += "Figures, with the difference from run 1 in brackets:\n";
  if (!rows.empty())
    text += blocks("figure", rows, compared.size() + 1);
  if (within > 0)
    text += fmt::format("  {} not listed: in every run {} within the numerical band. --all "
                        "lists {}.\n",
                        within == 1 ? "1 figure is" : fmt::format("{} figures are", within),
                        within == 1 ? "it is" : "they are", within == 1 ? "it" : "them");
  return text +
         wrapped("* differs by more than the numerical band: by more than mesh, steps and "
                 "contact alone may put the two figures apart. ? no band is known. Without "
                 "a mark the difference is within the band. The band does not contain the "
                 "scatter of metal and friction, which is mostly wider.",
                 "  ", 92);
}
} // namespace

std::string many_runs_text(const std::vector<RunRecord>     &runs,
                           const std::vector<RunComparison> &compared, const Listed listed,
                           const UnitSystem units)
{
  return run_list(runs) + "\n" + case_block(runs) + "\n" + answer_block(compared) + "\n" +
         figure_block(compared, listed, units);
}
} // namespace throughbend
