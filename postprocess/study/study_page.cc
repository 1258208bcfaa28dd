#include "postprocess/study/study_page.h"

#include "inputs/text/input_error.h"
#include "postprocess/html/html_text.h"
#include "postprocess/html/page_texts.h"
#include "postprocess/report/report_tables.h"
#include "postprocess/study/notable_passes.h"
#include "postprocess/study/study_grid.h"
#include "postprocess/study/study_parts.h"
#include "postprocess/study/study_tables.h"
#include "solver/study/file/study_file.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
// A page is to stay below 8 MB: this much for shapes, the rest for curves and words.
constexpr std::size_t shape_bytes = 5'000'000;

bool is_picked_in_charts(const StudyKind kind)
{
  return kind == StudyKind::map || kind == StudyKind::limit;
}

std::string section(const std::string &heading, const std::string &body)
{
  return body.empty()
             ? ""
             : "<section>\n<h2>" + escaped(heading) + "</h2>\n" + body + "</section>\n";
}

std::string figure_html(const CaptionedChart &chart, const std::string &more = "")
{
  return "<figure" + more + ">" +
         (chart.caption.empty()
              ? ""
              : "<figcaption>" + escaped(chart.caption) + "</figcaption>") +
         "\n" + chart.drawing.svg() + "</figure>\n";
}

/// Charts whose passes can be picked, beside the view of the pass.
std::string picked_html(const std::string                 &heading,
                        const std::vector<CaptionedChart> &charts,
                        const ReportedStudy &study, const std::vector<std::size_t> &passes,
                        const ReaderUnits &units)
{
  const PassData data = pass_data(study, passes, units, shape_bytes);
  std::string    left;
  for (const CaptionedChart &chart : charts)
    left +=
        figure_html(chart, " class=\"pick\" tabindex=\"0\" role=\"group\" aria-label=\"" +
                               escaped((chart.caption.empty() ? heading : chart.caption) +
                                       ". Arrow keys choose a pass, Enter plays it.") +
                               "\"");
  return "<section class=\"watch\">\n<h2>" + escaped(heading) +
         "</h2>\n<div class=\"side-by-side\">\n<div>\n" + left +
         "<p class=\"note keys\">Point at a pass to see it, click it to play it. Keys, "
         "once "
         "a chart has the focus: arrows go from pass to pass, Enter plays, space "
         "stops.</p>\n<p class=\"told-aloud\" aria-live=\"polite\"></p>\n</div>\n" +
         pass_view(data) +
         "</div>\n<noscript><p class=\"note\">Single passes need scripts; charts and "
         "tables "
         "do not.</p></noscript>\n<script type=\"application/json\" id=\"study-data\">" +
         script_safe(with_start(data, study.record, first_pass(study.record, passes))) +
         "</script>\n</section>\n";
}

std::string charts_html(const ReportedStudy &study, const ReaderUnits &units)
{
  const std::vector<CaptionedChart> charts = study_charts(study, units);
  const std::size_t                 n      = study.record.passes.size();
  if (is_picked_in_charts(study.record.kind))
  {
    std::vector<std::size_t> all(n);
    for (std::size_t i = 0; i < n; ++i)
      all[i] = i;
    return charts.empty() || n == 0
               ? ""
               : picked_html(study.record.kind == StudyKind::map ? "The map" : "The limits",
                             charts, study, all, units);
  }
  std::string html;
  for (const CaptionedChart &chart : charts)
    html += figure_html(chart);
  if (!html.empty())
    html = section(study.record.kind == StudyKind::spread ? "What comes out" : "The bands",
                   "<div class=\"charts\">\n" + html + "</div>\n");
  const NotablePasses notable = notable_passes(study);
  if (!notable.passes.empty())
    html += picked_html("Passes to look at", {{"notable", "", notable.drawing}}, study,
                        notable.passes, units);
  return html;
}

std::string marks_text()
{
  return "Letters: T through, C the ram's capacity runs out, E its stroke runs out, J "
         "jammed, D dropped; H and S stand for C or J where the coupon is hooked or "
         "squeezed. A star: it needs a look, for an event that a sound pass does not "
         "have, a close finding, low accuracy, or a coupon that goes through and whose "
         "metal is not known to hold. An exclamation mark: the metal is beyond its limits.";
}

std::string tables_html(const ReportedStudy &study, const ReaderUnits &units)
{
  std::string html;
  switch (study.record.kind)
  {
  case StudyKind::limit:
    html = section("Limits, from both sides",
                   limits_table(study, units) + paragraph(marks_text()));
    break;
  case StudyKind::map:
    html = section("How to read the map",
                   paragraph("Each cell is one computed pass, except pale cells. Letter "
                             "and colour show its finding. Curves of equal force and "
                             "stretch are drawn only between neighbouring passes with the "
                             "same outcome, never across a point without a finding. "
                             "Nothing was computed between two cells. A border is not an "
                             "allowed value: leave a margin for differences in plate, "
                             "grease and fixture.") +
                       paragraph(marks_text()));
    break;
  case StudyKind::spread:
    html = section("Chances", chances_table(study)) +
           section("Figures", quantiles_table(study, units)) +
           section("What goes with what", ranks_table(study)) +
           section("What scatters", scatter_table(study));
    break;
  case StudyKind::choice:
    html = section("The fixture", choice_table(study));
    break;
  }
  if (const std::string passes = passes_table(study, units); !passes.empty())
    html += "<section class=\"unprinted\">\n<h2>Passes</h2>\n<details><summary>All " +
            std::to_string(study.record.passes.size()) + " passes in a table</summary>\n" +
            passes + "</details>\n</section>\n";
  return html;
}

std::string case_html(const StudyRecord &record)
{
  std::vector<std::vector<std::string>> rows;
  for (const StudyKey &key : record.keys)
    rows.push_back({key_name(key.key), key.key, value_text(key, key.own)});
  return stacked_table({"varied", "key of the case", "the case's own value"}, rows) +
         "<details><summary>The whole case, with all defaults</summary>\n<pre>" +
         escaped(record.case_text) + "</pre>\n</details>\n";
}
} // namespace

StudyPage make_study_page(const StudyRecord &record, const UnitSystem first)
{
  const ReportedStudy study = reported_study(record);
  const ReaderUnits   units(first);
  StudyPage           made;
  made.notes = incomplete_reasons(record);
  std::string reported;
  for (const std::string &line : answer(study, units))
    reported += "<p class=\"answer\">" + escaped(line) + "</p>\n";
  made.page = whole_page(
      record, "report of a study: " + to_text(record.kind),
      filled(std::string(study_html()), {{"incomplete", incomplete_html(made.notes)},
                                         {"question", escaped(question(study))},
                                         {"answer", reported},
                                         {"caution", caution_html()},
                                         {"charts", charts_html(study, units)},
                                         {"tables", tables_html(study, units)},
                                         {"computed", computed_table(study)},
                                         {"case", case_html(record)}}),
      std::string(study_js()));
  return made;
}

StudyPage make_class_page(const StudyRecord &record, const UnitSystem first)
{
  if (record.kind != StudyKind::map || record.keys.empty() || record.keys.size() > 3)
    throw InputError("--class needs a map of one to three keys; this study is a " +
                     to_text(record.kind) +
                     ". Make one: throughbend map CASE --along KEY=FROM..TO/N");
  if (record.passes.empty())
    throw InputError(
        "--class: the study has no passes yet. The same command continues it.");
  const ReportedStudy      study = reported_study(record);
  const ReaderUnits        units(first);
  std::vector<std::size_t> all;
  for (std::size_t i = 0; i < record.passes.size(); ++i)
    all.push_back(i);
  const PassData data = pass_data(study, all, units, shape_bytes);

  std::string sliders;
  for (std::size_t k = 0; k < record.keys.size(); ++k)
  {
    const StudyKey &key = record.keys[k];
    double          low = INFINITY, high = -INFINITY;
    for (const StudyPass &pass : record.passes)
      if (k < pass.values.size())
      {
        low  = std::min(low, pass.values[k] / key.scale);
        high = std::max(high, pass.values[k] / key.scale);
      }
    const std::string name = "key-" + std::to_string(k);
    sliders +=
        "<div class=\"key-slider\"><label for=\"" + name + "\">" + escaped(key_title(key)) +
        "</label><div class=\"rail\"><input type=\"range\" id=\"" + name + "\" min=\"" +
        fmt::format("{:.9g}", low) + "\" max=\"" + fmt::format("{:.9g}", high) +
        "\" step=\"any\"><div class=\"marks\"></div></div><output for=\"" + name +
        "\"></output></div>\n";
  }
  StudyPage made;
  made.notes = incomplete_reasons(record);
  made.page  = whole_page(
       record, "class page of a study",
       filled(std::string(class_html()),
              {{"incomplete", incomplete_html(made.notes)},
               {"sliders", sliders},
               {"view", pass_view(data)},
               {"caution", caution_html()},
               {"computed", computed_table(study)},
               {"data", script_safe(with_start(data, record, first_pass(record, all)))}}),
       std::string(class_js()));
  return made;
}

std::vector<StudyPicture> study_pictures(const StudyRecord &record, const UnitSystem first)
{
  std::vector<StudyPicture> pictures;
  for (const CaptionedChart &chart :
       study_charts(reported_study(record), ReaderUnits(first)))
    pictures.push_back({chart.name, chart.drawing});
  return pictures;
}
} // namespace throughbend
