#include "postprocess/comparison.h"

#include "inputs/differing_keys.h"
#include "inputs/html_text.h"
#include "inputs/run_badge.h"
#include "postprocess/report_tables.h"
#include "postprocess/run_charts.h"

#include <algorithm>

namespace throughbend
{
namespace
{
using Rows = std::vector<std::vector<std::string>>;

/// A row for each figure that any run has; runs without it have a dash.
Rows figure_rows(const std::vector<RunRecord> &runs, const ReaderUnits &units)
{
  std::vector<std::vector<ReportFigure>> of_runs;
  std::vector<std::string>               names;
  for (const RunRecord &run : runs)
  {
    of_runs.push_back(report_figures(run, units));
    for (const ReportFigure &figure : of_runs.back())
      if (std::find(names.begin(), names.end(), figure.name) == names.end())
        names.push_back(figure.name);
  }
  Rows rows;
  for (const std::string &name : names)
  {
    std::vector<std::string> row = {name};
    for (const std::vector<ReportFigure> &figures : of_runs)
    {
      const auto found =
          std::find_if(figures.begin(), figures.end(),
                       [&](const auto &figure) { return figure.name == name; });
      row.push_back(found == figures.end() ? "-"
                    : found->second == "the same"
                        ? found->first
                        : found->first + " (" + found->second + ")");
    }
    rows.push_back(row);
  }
  return rows;
}

/// Keys whose values are not the same in all runs.
Rows differing_inputs(const std::vector<RunRecord> &runs)
{
  std::vector<const Case *> cases;
  for (const RunRecord &run : runs)
    cases.push_back(run.told ? &*run.told : nullptr);
  Rows rows;
  for (const DifferingKey &key : differing_keys(cases))
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
  std::vector<std::string> heads = {""}, findings = {"finding"}, metals = {"metal"};
  for (const RunRecord &run : runs)
  {
    heads.push_back(run.name);
    findings.push_back(finding_brief(run) + (run.complete() ? "" : " (incomplete)"));
    metals.push_back(metal_brief(run));
  }
  Rows rows = figure_rows(runs, units);
  rows.insert(rows.begin(), {findings, metals});
  heads.front() = "figure";
  std::string html =
      "<section class=\"comparison\">\n<h2>Comparison</h2>\n" + table(heads, rows);
  heads.front()     = "input";
  const Rows inputs = differing_inputs(runs);
  html +=
      "<h3>Inputs that differ</h3>\n" +
      (inputs.empty() ? paragraph("None: the same case was run.") : table(heads, inputs));
  html += "<div class=\"charts\">\n";
  for (const auto &chart : {force_comparison(runs, units), strain_comparison(runs, units)})
    if (chart)
      html += "<figure><figcaption>" + escaped(chart->title) + "</figcaption>" +
              svg_text(*chart) + "</figure>\n";
  return html + "</div>\n</section>\n";
}
} // namespace throughbend
