#include "postprocess/report/report_page.h"

#include "postprocess/charts/flow_chart.h"
#include "postprocess/charts/run_charts.h"
#include "postprocess/drawing/colour_map.h"
#include "postprocess/html/html_text.h"
#include "postprocess/html/page_texts.h"
#include "postprocess/report/comparison.h"
#include "postprocess/report/events_table.h"
#include "postprocess/report/report_tables.h"
#include "postprocess/runs/run_badge.h"
#include "postprocess/runs/run_events.h"
#include "postprocess/shapes/animation_data.h"
#include "postprocess/shapes/solid_data.h"
#include "postprocess/words/finding_advice.h"
#include "postprocess/words/finding_words.h"

#include <algorithm>

namespace throughbend
{
namespace
{
// A page is to stay below 8 MB: this much for all animations, the rest for pictures.
constexpr std::size_t animation_bytes = 4'000'000;
// With a body in space below 3 MB: what draws it takes 0.7 MB.
constexpr std::size_t solid_animation_bytes = 1'500'000;

const std::string solid_choice =
    "<label hidden>Show <select class=\"view\">\n"
    "<option value=\"space\">the whole coupon, to turn</option>\n"
    "<option value=\"middle\">the middle of its width</option>\n</select></label>\n";

const std::string no_space_note =
    "<p class=\"note no-space\" hidden>This browser does not draw in space (WebGL). It "
    "shows the middle of the coupon's width.</p>\n";

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
std::string watch_html(const ReportedRun &reported, const std::size_t number,
                       const ReaderUnits &units, const std::size_t most_bytes)
{
  if (reported.shapes.empty())
    return "";
  const bool          solid = has_solid(reported.shapes);
  const AnimationData data =
      animation_data(reported.run, reported.shapes, shape_scale(reported.shapes), units,
                     solid ? std::min(most_bytes, solid_animation_bytes) : most_bytes);
  if (data.json.empty())
    return "";
  const auto  chart = force_chart(reported.run, units);
  std::string note  = "The run stores the coupon's shape at " +
                     std::to_string(reported.shapes.shapes.size()) +
                     " moments; shapes between them are interpolated.";
  if (data.left_out > 0)
    note +=
        " " + std::to_string(data.left_out) + " of them were left out for the page's size.";
  const bool body = reported.run.known_case && reported.run.known_case->mesh.dimension == 3;
  if (!solid && body)
    note += " Shown is the middle of the coupon's width.";
  if (std::any_of(reported.shapes.zone.begin(), reported.shapes.zone.end(),
                  [](const int zone) { return zone != 0; }))
    note += " Lines across the coupon are the borders of weld and HAZ, where they run "
            "across it.";
  return filled(std::string(viewer_html()),
                {{"number", std::to_string(number)},
                 {"force_chart", chart ? svg_text(*chart) : ""},
                 {"note", escaped(note)},
                 {"strain_place", body ? "mid-width" : "convex face"},
                 {"solid", solid ? std::string(solid_html()) : ""},
                 {"solid_choice", solid ? solid_choice : ""},
                 {"solid_note", solid ? no_space_note : ""},
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

std::string charts_html(const ReportedRun &reported, const ReaderUnits &units,
                        const std::string &watch)
{
  std::string html;
  const auto  add = [&](const std::optional<Chart> &chart, const std::string &caption)
  {
    if (chart)
      html += figure_html(*chart, caption);
  };
  if (watch.empty()) // else the force chart stands beside the animation
    add(force_chart(reported.run, units), "Ram force along the travel");
  add(face_strain_chart(reported.run, reported.shapes, units),
      "Strain along the convex face");
  add(flow_chart(reported.run, reported.shapes, units), flow_caption());
  add(pressure_chart(reported.run, units), "Largest contact pressure");
  add(nose_gap_chart(reported.run, units),
      "Largest gap between nose and coupon in the bend");
  add(wrap_chart(reported.run, units), "Wrap about the nose, and legs from flat");
  return html.empty() ? ""
                      : "<section>\n<h3>Charts</h3>\n<div class=\"charts\">\n" + html +
                            "</div>\n</section>\n";
}

std::string run_section(const ReportedRun &reported, const std::size_t number,
                        const std::size_t n_runs, const ReaderUnits &units,
                        std::vector<std::string> &notes)
{
  const RunRecord               &run     = reported.run;
  const std::vector<std::string> reasons = incomplete_because(run, reported.shapes.missing);
  for (const std::string &reason : reasons)
    notes.push_back(run.folder.string() + ": " + reason);
  const std::string watch  = watch_html(reported, number, units, animation_bytes / n_runs);
  const std::string advice = finding_advice(run, units);
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
       {"pictures", pictures_html(reported.pictures)},
       {"charts", charts_html(reported, units, watch)},
       {"inputs", inputs_html(run, units)},
       {"quality", quality_html(run)},
       {"again", again_html(run)}});
}

/// What draws bodies with width: on a page that has one.
std::string solid_script(const std::vector<ReportedRun> &all)
{
  if (std::none_of(all.begin(), all.end(),
                   [](const ReportedRun &reported) { return has_solid(reported.shapes); }))
    return "";
  return "<script>\n" + std::string(three_js()) + std::string(solid_js()) + "</script>\n";
}
} // namespace

Report make_report(const std::vector<ReportedRun> &all, const std::string &given_title,
                   const UnitSystem first)
{
  const ReaderUnits      units(first);
  std::vector<RunRecord> records;
  for (const ReportedRun &reported : all)
    records.push_back(reported.run);

  Report      report;
  std::string sections, links;
  for (std::size_t i = 0; i < all.size(); ++i)
  {
    const std::string number = std::to_string(i + 1);
    const std::string name   = escaped(all[i].run.name);
    const bool        played = all.size() <= most_played;
    if (played)
      sections += run_section(all[i], i + 1, all.size(), units, report.notes);
    else
      for (const std::string &reason : incomplete_because(all[i].run, {}))
        report.notes.push_back(all[i].run.folder.string() + ": " + reason);
    links += "<li>" + (played ? "<a href=\"#run-" + number + "\">" + name + "</a>" : name) +
             ": " + escaped(badge_words(all[i].run)) + "</li>\n";
  }
  // Each run's section has the cautions; without sections they stand above the comparison.
  const std::string caution = all.size() > most_played
                                  ? "<section class=\"caution\" aria-label=\"Caution\">\n" +
                                        caution_html() + "</section>\n"
                                  : "";
  const bool        single  = all.size() == 1;
  const std::string title   = !given_title.empty() ? given_title
                              : single             ? all.front().run.title()
                                       : std::to_string(all.size()) + " passes compared";
  report.page               = filled(
                    std::string(page_html()),
                    {{"title", escaped(title)},
                     {"what", escaped(single ? "report of run " + all.front().run.name
                                             : "report of several runs")},
                     {"css", std::string(page_css())},
                     {"script", std::string(page_js())},
                     {"runs_list",
        single ? "" : "<section class=\"runs-list\"><ul>\n" + links + "</ul></section>\n"},
                     {"comparison", caution + comparison_html(records, units)},
                     {"runs", sections + solid_script(all)},
                     {"colour_source", escaped(colour_map_source())}});
  return report;
}
} // namespace throughbend
