#include "postprocess/report_page.h"

#include "inputs/html_text.h"
#include "inputs/run_badge.h"
#include "inputs/run_events.h"
#include "postprocess/animation_data.h"
#include "postprocess/colour_map.h"
#include "postprocess/comparison.h"
#include "postprocess/events_table.h"
#include "postprocess/finding_advice.h"
#include "postprocess/finding_words.h"
#include "postprocess/flow_chart.h"
#include "postprocess/page_texts.h"
#include "postprocess/report_tables.h"
#include "postprocess/run_charts.h"

#include <algorithm>

namespace throughbend
{
namespace
{
// A page is to stay below 8 MB: this much for all animations, the rest for pictures.
constexpr std::size_t animation_bytes = 4'000'000;

std::string figure_html(const Chart &chart, const std::string &caption)
{
  return "<figure><figcaption>" + escaped(caption) + "</figcaption>" + svg_text(chart) +
         "</figure>\n";
}

std::string incomplete_html(const std::vector<std::string> &reasons)
{
  if (reasons.empty())
    return "";
  return "<section class=\"incomplete\" role=\"note\">\n<strong>This report is "
         "incomplete.</strong>\n" +
         list(reasons) + "</section>\n";
}

/// The animation with the force chart beside it; empty without shapes.
std::string watch_html(const ToldRun &told, const std::size_t number,
                       const ReaderUnits &units, const std::size_t most_bytes)
{
  if (told.shapes.empty())
    return "";
  const AnimationData data =
      animation_data(told.run, told.shapes, shape_scale(told.shapes), units, most_bytes);
  if (data.json.empty())
    return "";
  const auto  chart = force_chart(told.run, units);
  std::string note  = "The run keeps the coupon's shape at " +
                     std::to_string(told.shapes.shapes.size()) +
                     " moments; shapes between them are interpolated.";
  if (data.left_out > 0)
    note +=
        " " + std::to_string(data.left_out) + " of them were left out for the page's size.";
  if (told.run.told && told.run.told->mesh.dimension == 3)
    note += " Shown is the middle of the coupon's width.";
  if (std::any_of(told.shapes.zone.begin(), told.shapes.zone.end(),
                  [](const int zone) { return zone != 0; }))
    note += " Lines across the coupon are the borders of weld and HAZ.";
  return filled(std::string(viewer_html()), {{"number", std::to_string(number)},
                                             {"force_chart", chart ? svg_text(*chart) : ""},
                                             {"note", escaped(note)},
                                             {"data", script_safe(data.json)}});
}

std::string pictures_html(const std::vector<RunPicture> &pictures)
{
  if (pictures.empty())
    return "";
  std::string html =
      "<section>\n<h3>Strain along the coupon</h3>\n<div class=\"pictures\">\n";
  for (const RunPicture &picture : pictures)
    html += "<img alt=\"" + escaped("Strain along the coupon, " + picture.heading) +
            "\" src=\"data:image/png;base64," + base64(picture.bytes) + "\">\n";
  return html + "</div>\n</section>\n";
}

std::string charts_html(const ToldRun &told, const ReaderUnits &units,
                        const std::string &watch)
{
  std::string html;
  const auto  add = [&](const std::optional<Chart> &chart, const std::string &caption)
  {
    if (chart)
      html += figure_html(*chart, caption);
  };
  if (watch.empty()) // else the force chart stands beside the animation
    add(force_chart(told.run, units), "Ram force along the travel");
  add(face_strain_chart(told.run, told.shapes, units), "Strain along the convex face");
  add(flow_chart(told.run, told.shapes, units), flow_caption());
  add(pressure_chart(told.run, units), "Largest contact pressure");
  add(nose_gap_chart(told.run, units), "Largest gap between nose and coupon in the bend");
  add(wrap_chart(told.run, units), "Wrap about the nose, and legs from flat");
  return html.empty() ? ""
                      : "<section>\n<h3>Charts</h3>\n<div class=\"charts\">\n" + html +
                            "</div>\n</section>\n";
}

std::string run_section(const ToldRun &told, const std::size_t number,
                        const std::size_t n_runs, const ReaderUnits &units,
                        std::vector<std::string> &notes)
{
  const RunRecord               &run     = told.run;
  const std::vector<std::string> reasons = incomplete_because(run, told.shapes.missing);
  for (const std::string &reason : reasons)
    notes.push_back(run.folder.string() + ": " + reason);
  const std::string watch    = watch_html(told, number, units, animation_bytes / n_runs);
  const std::string advice   = finding_advice(run, units);
  const std::string evidence = finding_evidence(run, units);
  return filled(
      std::string(run_html()),
      {{"number", std::to_string(number)},
       {"heading", n_runs == 1 ? ""
                               : "<p class=\"kind\">run " + escaped(run.name) +
                                     "</p>\n<h2>" + escaped(run.title()) + "</h2>\n"},
       {"incomplete", incomplete_html(reasons)},
       {"badge_class", to_text(badge_colour(run))},
       {"badge", escaped(badge_words(run))},
       {"sentence", escaped(finding_sentence(run, units))},
       {"answers", answers_html(run, units)},
       {"events", events_html(run, units)},
       {"why", evidence.empty() ? "" : paragraph(evidence)},
       {"advice", advice.empty() ? "" : paragraph("What helps: " + advice)},
       {"lesson", lesson_html(run)},
       {"caution", caution_html()},
       {"watch", watch},
       {"figures", key_figures_html(run, units)},
       {"pictures", pictures_html(told.pictures)},
       {"charts", charts_html(told, units, watch)},
       {"inputs", inputs_html(run, units)},
       {"quality", quality_html(run)},
       {"again", again_html(run)}});
}
} // namespace

Report make_report(const std::vector<ToldRun> &all, const std::string &given_title,
                   const UnitSystem first)
{
  const ReaderUnits      units(first);
  std::vector<RunRecord> records;
  for (const ToldRun &told : all)
    records.push_back(told.run);

  Report      report;
  std::string sections, links;
  for (std::size_t i = 0; i < all.size(); ++i)
  {
    const std::string number = std::to_string(i + 1);
    sections += run_section(all[i], i + 1, all.size(), units, report.notes);
    links += "<li><a href=\"#run-" + number + "\">" + escaped(all[i].run.name) +
             "</a>: " + escaped(badge_words(all[i].run)) + "</li>\n";
  }
  const bool        single = all.size() == 1;
  const std::string title  = !given_title.empty() ? given_title
                             : single             ? all.front().run.title()
                                      : std::to_string(all.size()) + " passes compared";
  report.page              = filled(
                   std::string(page_html()),
                   {{"title", escaped(title)},
                    {"what", escaped(single ? "report of run " + all.front().run.name
                                            : "report of several runs")},
                    {"css", std::string(page_css())},
                    {"script", std::string(page_js())},
                    {"runs_list",
        single ? "" : "<section class=\"runs-list\"><ul>\n" + links + "</ul></section>\n"},
                    {"comparison", comparison_html(records, units)},
                    {"runs", sections},
                    {"colour_source", escaped(colour_map_source())}});
  return report;
}
} // namespace throughbend
