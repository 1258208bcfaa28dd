#include "postprocess/report/index_page.h"

#include "postprocess/drawing/colour_map.h"
#include "postprocess/html/html_text.h"
#include "postprocess/html/page_texts.h"
#include "postprocess/report/index_figures.h"
#include "postprocess/report/report_tables.h"
#include "postprocess/runs/run_badge.h"
#include "postprocess/words/finding_words.h"

#include <algorithm>

namespace throughbend
{
namespace
{
namespace fs = std::filesystem;

/// From the index's folder; a whole path where there is no way from one to the other.
std::string address(const fs::path &report, const fs::path &folder)
{
  const fs::path way = fs::absolute(report).lexically_normal().lexically_relative(folder);
  return escaped(address_of((way.empty() ? fs::absolute(report) : way).generic_string()));
}

std::string picture_html(const ReportedRun &reported)
{
  if (!reported.telling)
    return "";
  return "<img alt=\"" + escaped("Strain along the coupon, " + reported.telling->heading) +
         "\" src=\"data:image/png;base64," + base64(reported.telling->bytes) + "\">\n";
}

std::string figures_html(const std::vector<IndexFigure> &figures)
{
  std::string html;
  for (const IndexFigure &figure : figures)
    if (!figure.full.empty())
      html += "<div><dt>" + escaped(figure.name) + "</dt><dd>" + escaped(figure.full) +
              "</dd></div>\n";
  return html;
}

/// A row of the table of all findings. Each cell knows its head, which a narrow screen
/// shows beside it.
std::string overview_row(const std::string &link, const RunRecord &run,
                         const std::vector<IndexFigure> &figures)
{
  std::string words = finding_brief(run);
  if (const std::string trust = run.word("numerical_quality.accuracy");
      trust == "low" || trust == "broken")
    words += "; " + trust + " accuracy";
  std::string row = "<tr><th scope=\"row\">" + link + "</th><td class=\"mark mark-" +
                    to_text(badge_colour(run)) + "\">" + escaped(words) +
                    "</td><td data-head=\"metal\">" + escaped(metal_brief(run)) + "</td>";
  for (const IndexFigure &figure : figures)
    row += std::string(figure.full.empty() ? "<td class=\"none\"" : "<td") +
           " data-head=\"" + escaped(figure.name) + "\">" + escaped(figure.brief) + "</td>";
  return row + "</tr>\n";
}
} // namespace

IndexPage::IndexPage(const fs::path &file, const std::string &title, const UnitSystem first)
    : folder_(fs::absolute(file).lexically_normal().parent_path()), title_(title),
      units_(first)
{
}

void IndexPage::add(const ReportedRun &reported, const fs::path &report)
{
  const RunRecord               &run     = reported.run;
  const std::vector<IndexFigure> figures = index_figures(run, units_);
  const std::string              number  = std::to_string(rows_.size() + 1);
  if (heads_.empty())
  {
    heads_ = {"pass", "finding", "metal"};
    for (const IndexFigure &figure : figures)
      heads_.push_back(figure.name);
  }
  rows_.push_back(overview_row(
      "<a href=\"#run-" + number + "\">" + escaped(run.title()) + "</a>", run, figures));

  std::vector<IndexFigure> own = figures;
  if (const auto opening = flaw_opening(run, units_))
    own.push_back(*opening);

  std::string       entry   = std::string(entry_html());
  const std::string picture = picture_html(reported);
  if (picture.empty())
    entry.replace(entry.find("entry"), 5, "entry unseen");
  const std::string heading = run.known_case ? run.known_case->chapter : "";
  const auto        found =
      std::find_if(chapters_.begin(), chapters_.end(),
                   [&](const Chapter &chapter) { return chapter.heading == heading; });
  Chapter &chapter =
      found != chapters_.end() ? *found : chapters_.emplace_back(Chapter{heading, ""});
  chapter.entries += filled(
      entry, {{"number", number},
              {"picture", picture},
              {"address", address(report, folder_)},
              {"title", escaped(run.title())},
              {"name", escaped(run.name)},
              {"badge_class", to_text(badge_colour(run))},
              {"badge", escaped(badge_words(run))},
              {"lesson", lesson_html(run)},
              {"sentence", escaped(finding_sentence(run, units_))},
              {"answers", answers_html(run, units_)},
              {"incomplete",
               incomplete_because(run, reported.shapes.missing).empty()
                   ? ""
                   : "<p class=\"incomplete\">Incomplete: its report says why.</p>\n"},
              {"figures", figures_html(own)}});
}

std::string IndexPage::html() const
{
  std::string body = "<section class=\"caution\" aria-label=\"Caution\">\n" +
                     caution_html() + "</section>\n";
  std::string heads, rows;
  for (const std::string &head : heads_)
    heads += "<th scope=\"col\">" + escaped(head) + "</th>";
  for (const std::string &row : rows_)
    rows += row;
  body += "<section class=\"overview\">\n<h2>All findings</h2>\n<div "
          "class=\"wide\"><table>\n<thead><tr>" +
          heads + "</tr></thead>\n<tbody>\n" + rows +
          "</tbody></table></div>\n</section>\n";
  for (const Chapter &chapter : chapters_)
    body += (chapter.heading.empty()
                 ? ""
                 : "<h2 class=\"chapter\">" + escaped(chapter.heading) + "</h2>\n") +
            chapter.entries;
  const std::string count = std::to_string(rows_.size());
  const std::string title =
      !title_.empty() ? title_ : count + (rows_.size() == 1 ? " pass" : " passes");
  return filled(std::string(page_html()),
                {{"title", escaped(title)},
                 {"what", "index of " + count + (rows_.size() == 1 ? " run" : " runs")},
                 {"css", std::string(page_css()) + std::string(index_css())},
                 {"script", ""},
                 {"runs_list", ""},
                 {"comparison", ""},
                 {"runs", body},
                 {"colour_source", escaped(colour_map_source())}});
}
} // namespace throughbend
