#include "postprocess/study/study_parts.h"

#include "postprocess/html/html_text.h"
#include "postprocess/html/page_texts.h"
#include "postprocess/study/limit_chart.h"
#include "postprocess/study/map_chart.h"
#include "postprocess/study/spread_charts.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
const char *const ground_source =
    "Colours of findings are made from those of Okabe and Ito (2008), Color Universal "
    "Design; the letters tell findings apart without colour.";

double far_from_own(const StudyRecord &record, const StudyPass &pass)
{
  double sum = 0;
  for (std::size_t k = 0; k < std::min(record.keys.size(), pass.values.size()); ++k)
  {
    double low = INFINITY, high = -INFINITY;
    for (const StudyPass &other : record.passes)
      if (k < other.values.size())
      {
        low  = std::min(low, other.values[k]);
        high = std::max(high, other.values[k]);
      }
    if (high > low)
      sum += std::pow((pass.values[k] - record.keys[k].own) / (high - low), 2);
  }
  return sum;
}

void add_map(std::vector<CaptionedChart> &charts, const ReportedStudy &study,
             const ReaderUnits &units)
{
  const StudyGrid grid(study.record);
  for (std::size_t k = 0; k < grid.n_keys(); ++k)
    if (grid.levels(k).empty())
      return;
  if (grid.n_keys() == 1)
  {
    charts.push_back({"map", "Findings over " + key_name(study.record.keys[0].key),
                      strip_chart(study, grid, units)});
    return;
  }
  const std::size_t layers = grid.n_keys() == 2 ? 1 : grid.levels(2).size();
  for (std::size_t layer = 0; layer < layers; ++layer)
  {
    std::string caption = "Findings";
    std::string name    = "map";
    if (grid.n_keys() > 2)
    {
      caption += " at " + key_name(study.record.keys[2].key) + " " +
                 value_text(study.record.keys[2], grid.levels(2)[layer]);
      name += "-" + std::to_string(layer + 1);
    }
    charts.push_back({name, caption, map_chart(study, grid, layer, units)});
  }
}
} // namespace

bool is_own(const StudyRecord &record, const StudyPass &pass)
{
  return !pass.values.empty() && far_from_own(record, pass) < 1e-12;
}

std::size_t first_pass(const StudyRecord &record, const std::vector<std::size_t> &among)
{
  return *std::min_element(among.begin(), among.end(),
                           [&](const std::size_t a, const std::size_t b)
                           {
                             return far_from_own(record, record.passes[a]) <
                                    far_from_own(record, record.passes[b]);
                           });
}

std::vector<std::string> incomplete_reasons(const StudyRecord &record)
{
  std::vector<std::string> reasons;
  if (record.passes.empty())
    reasons.emplace_back("The study has no passes yet.");
  if (!record.whole)
    reasons.push_back("The study has not ended: " + std::to_string(record.passes.size()) +
                      (record.planned > 0
                           ? " of " + std::to_string(record.planned) + " passes are there."
                           : " passes are there.") +
                      " The same command continues it.");
  return reasons;
}

std::string incomplete_html(const std::vector<std::string> &reasons)
{
  return reasons.empty() ? ""
                         : "<section class=\"incomplete\" role=\"note\">\n<strong>This "
                           "report is incomplete.</strong>\n" +
                               list(reasons) + "</section>\n";
}

std::string pass_view(const PassData &data)
{
  std::string note = "The study stores the coupon's outline at up to " +
                     std::to_string(data.moments) +
                     " moments of a pass; shapes between them are interpolated.";
  if (data.thinned)
    note += " Some were left out for the page's size.";
  return filled(std::string(pass_view_html()), {{"note", escaped(note)}});
}

std::string with_start(const PassData &data, const StudyRecord &record,
                       const std::size_t start)
{
  const bool own = is_own(record, record.passes[start]);
  return "{\"start\":" + std::to_string(start) +
         ",\"has_own\":" + (own ? "true" : "false") + "," + data.json.substr(1);
}

std::string whole_page(const StudyRecord &record, const std::string &what,
                       const std::string &body, const std::string &script)
{
  return filled(std::string(page_html()),
                {{"title", escaped(record.title.empty() ? "Study" : record.title)},
                 {"what", escaped(what)},
                 {"css", std::string(page_css()) + std::string(study_css())},
                 {"script", std::string(study_view_js()) + script},
                 {"runs_list", ""},
                 {"comparison", ""},
                 {"runs", body},
                 {"colour_source", escaped(ground_source)}});
}

std::vector<CaptionedChart> study_charts(const ReportedStudy &study,
                                         const ReaderUnits   &units)
{
  std::vector<CaptionedChart> charts;
  if (study.record.passes.empty() || study.record.keys.empty())
    return charts;
  switch (study.record.kind)
  {
  case StudyKind::map:
    add_map(charts, study, units);
    break;
  case StudyKind::limit:
    charts.push_back({"limits", "Passes along each key", limit_chart(study)});
    break;
  case StudyKind::spread:
    for (const std::string figure : {"peak_ram_force_N", "peak_face_elongation"})
      if (std::any_of(study.record.passes.begin(), study.record.passes.end(),
                      [&](const StudyPass &pass)
                      { return std::isfinite(figure_of(pass, figure)); }))
        charts.push_back({"histogram-" + figure, "How often: " + figure_name(figure),
                          histogram_chart(study, figure, units)});
    for (const std::string &figure : figures_in(study.answers, "weights"))
      charts.push_back({"weights-" + figure, "What matters for the " + figure_name(figure),
                        weights_chart(study, figure)});
    break;
  case StudyKind::choice:
    if (study.answers.has("bands.0"))
      charts.push_back({"bands", "Bands of the chosen fixture", band_chart(study)});
    break;
  }
  return charts;
}
} // namespace throughbend
