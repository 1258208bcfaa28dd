#include "postprocess/report/comparison.h"

#include "inputs/keys/differing_keys.h"
#include "postprocess/charts/run_charts.h"
#include "postprocess/html/html_text.h"
#include "postprocess/report/report_tables.h"
#include "postprocess/runs/run_badge.h"
#include "postprocess/runs/run_comparison.h"

#include <algorithm>

namespace throughbend
{
namespace
{
using Rows = std::vector<std::vector<std::string>>;

constexpr std::size_t beside = 4; // runs beside the first, in one table or chart

/// What a run has of a figure, in both families of units.
std::string value_text(const ReportFigure &figure)
{
  return figure.second == "the same" ? figure.first
                                     : figure.first + " (" + figure.second + ")";
}

/// Below a value: its difference from the first run, and a mark where mesh, steps and
/// contact alone do not explain it.
std::string difference_html(const RunComparison *compared, const std::string &name,
                            const ReaderUnits &units)
{
  if (compared == nullptr)
    return "";
  for (const FigurePair &pair : compared->figures)
    if (pair.name == name && pair.difference() != 0)
    {
      const bool        beyond = pair.standing == FigurePair::Standing::beyond_band;
      const std::string words  = difference_words(pair, units.first());
      return "<br><span class=\"" + std::string(beyond ? "beyond" : "within") + "\">" +
             escaped(words) +
             (beyond                                           ? " *"
              : pair.standing == FigurePair::Standing::no_band ? " ?"
                                                               : "") +
             "</span>";
    }
  return "";
}

std::string cells(const std::vector<std::string> &texts)
{
  std::string html;
  for (const std::string &text : texts)
    html += "<td>" + escaped(text) + "</td>";
  return html;
}

/// One figure's row: of the runs whose numbers are given. Those without it have a dash.
std::string figure_row(const std::string                            &name,
                       const std::vector<std::vector<ReportFigure>> &of_runs,
                       const std::vector<RunComparison>             &compared,
                       const std::vector<std::size_t> &numbers, const ReaderUnits &units)
{
  std::string row = "<tr><th scope=\"row\">" + escaped(name) + "</th>";
  for (const std::size_t i : numbers)
  {
    const auto found =
        std::find_if(of_runs[i].begin(), of_runs[i].end(),
                     [&](const ReportFigure &figure) { return figure.name == name; });
    row += found == of_runs[i].end()
               ? "<td>-</td>"
               : "<td>" + escaped(value_text(*found)) +
                     difference_html(i == 0 ? nullptr : &compared[i - 1], name, units) +
                     "</td>";
  }
  return row + "</tr>\n";
}

/// Of the first run and some of the others: finding, metal, and every figure that any run
/// has.
std::string figures_table(const std::vector<RunRecord>                 &runs,
                          const std::vector<std::vector<ReportFigure>> &of_runs,
                          const std::vector<RunComparison>             &compared,
                          const std::vector<std::size_t> &numbers, const ReaderUnits &units)
{
  std::vector<std::string> names, findings, metals;
  std::string              html = "<div class=\"wide\"><table>\n<thead><tr><th "
                                  "scope=\"col\">figure</th>";
  for (const std::size_t i : numbers)
  {
    html += "<th scope=\"col\">" + escaped(runs[i].name) + "</th>";
    findings.push_back(finding_brief(runs[i]) +
                       (runs[i].complete() ? "" : " (incomplete)"));
    metals.push_back(metal_brief(runs[i]));
    for (const ReportFigure &figure : of_runs[i])
      if (std::find(names.begin(), names.end(), figure.name) == names.end())
        names.push_back(figure.name);
  }
  html += "</tr></thead>\n<tbody>\n<tr><th scope=\"row\">finding</th>" + cells(findings) +
          "</tr>\n<tr><th scope=\"row\">metal</th>" + cells(metals) + "</tr>\n";
  for (const std::string &name : names)
    html += figure_row(name, of_runs, compared, numbers, units);
  return html + "</tbody></table></div>\n";
}

/// The first run with each group of the others.
std::vector<std::vector<std::size_t>> groups(const std::size_t n_runs)
{
  std::vector<std::vector<std::size_t>> all;
  for (std::size_t i = 1; i < n_runs; ++i)
  {
    if ((i - 1) % beside == 0)
      all.push_back({0});
    all.back().push_back(i);
  }
  return all;
}

std::vector<RunRecord> chosen(const std::vector<RunRecord>   &runs,
                              const std::vector<std::size_t> &numbers)
{
  std::vector<RunRecord> some;
  for (const std::size_t i : numbers)
    some.push_back(runs[i]);
  return some;
}

/// Keys whose values are not the same in all runs.
Rows differing_inputs(const std::vector<RunRecord> &runs)
{
  Rows rows;
  for (const DifferingKey &key : differing_keys(cases_of(runs)))
  {
    rows.push_back({key.option->key()});
    rows.back().insert(rows.back().end(), key.values.begin(), key.values.end());
  }
  return rows;
}
} // namespace

std::string comparison_html(const std::vector<RunRecord> &runs, const ReaderUnits &units)
{
  if (runs.size() < 2)
    return "";
  std::vector<std::vector<ReportFigure>> of_runs;
  std::vector<RunComparison>             compared;
  for (const RunRecord &run : runs)
  {
    of_runs.push_back(report_figures(run, units));
    if (of_runs.size() > 1)
      compared.push_back(compared_runs(runs.front(), run));
  }
  std::string html = "<section class=\"comparison\">\n<h2>Comparison</h2>\n"
                     "<div class=\"charts\">\n";
  // More lines than a few cannot be told apart.
  for (const std::vector<std::size_t> &numbers : groups(runs.size()))
    for (const auto &chart : {force_comparison(chosen(runs, numbers), units),
                              strain_comparison(chosen(runs, numbers), units)})
      if (chart)
        html += "<figure><figcaption>" + escaped(chart->title) + "</figcaption>" +
                svg_text(*chart) + "</figure>\n";
  html += "</div>\n<h3>Key figures</h3>\n" +
          paragraph("Below a value: its difference from " + runs.front().name +
                    ". * more than mesh, steps and contact alone may make of it (the "
                    "numerical band); ? no band is known; without a mark: within the band. "
                    "Metal and friction mostly scatter more than that.");
  for (const std::vector<std::size_t> &numbers : groups(runs.size()))
    html += figures_table(runs, of_runs, compared, numbers, units);
  html += "<h3>Inputs that differ</h3>\n";
  std::string inputs;
  for (const std::vector<std::size_t> &numbers : groups(runs.size()))
  {
    const std::vector<RunRecord> some  = chosen(runs, numbers);
    std::vector<std::string>     heads = {"input"};
    for (const RunRecord &run : some)
      heads.push_back(run.name);
    inputs += table(heads, differing_inputs(some));
  }
  html += inputs.empty() ? paragraph("None: the same case was run.") : inputs;
  return html + "</section>\n";
}
} // namespace throughbend
