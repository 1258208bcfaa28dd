#include "postprocess/study/notable_passes.h"

#include "postprocess/study/chart_frame.h"
#include "postprocess/study/finding_mark.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
struct Notable
{
  std::size_t pass;
  std::string why;
};

/// Whether the pass was made in the fixture that a choice ends with.
bool is_in_chosen_fixture(const ReportedStudy &study, const StudyPass &pass)
{
  for (std::size_t k = 0; k < study.record.keys.size() && k < pass.values.size(); ++k)
    if (const double value = study.answers.number("fixture." + study.record.keys[k].key);
        std::isfinite(value) &&
        std::abs(value - pass.values[k]) > 1e-9 * std::max(std::abs(value), 1e-9))
      return false;
  return true;
}

std::vector<Notable> chosen(const ReportedStudy &study)
{
  const StudyRecord       &record = study.record;
  std::vector<std::size_t> by_force;
  for (std::size_t p = 0; p < record.passes.size(); ++p)
    if (is_in_chosen_fixture(study, record.passes[p]) &&
        record.passes[p].outcome == "through" &&
        std::isfinite(figure_of(record.passes[p], "peak_ram_force_N")))
      by_force.push_back(p);
  std::sort(by_force.begin(), by_force.end(),
            [&](const std::size_t a, const std::size_t b)
            {
              return figure_of(record.passes[a], "peak_ram_force_N") <
                     figure_of(record.passes[b], "peak_ram_force_N");
            });
  std::vector<Notable> all;
  if (!by_force.empty())
    all.push_back({by_force.front(), "through with the least force"});
  if (by_force.size() > 2)
    all.push_back({by_force[by_force.size() / 2], "through with the middle force"});
  if (by_force.size() > 1)
    all.push_back({by_force.back(), "through with the largest force"});
  for (const CountedMark &one : count_marks(record.passes))
  {
    if (one.mark.rank < 3) // through, with nothing beyond
      continue;
    const auto found = std::find_if(record.passes.begin(), record.passes.end(),
                                    [&](const StudyPass &pass)
                                    { return mark_of(pass).brief == one.mark.brief; });
    if (found != record.passes.end())
      all.push_back(
          {static_cast<std::size_t>(found - record.passes.begin()), one.mark.brief});
  }
  return all;
}
} // namespace

NotablePasses notable_passes(const ReportedStudy &study)
{
  const std::vector<Notable> all = chosen(study);
  NotablePasses              made;
  constexpr double           row = 34;
  made.drawing =
      Drawing(chart_width, row * static_cast<double>(all.size()) + 4, "Passes to look at");
  double y = 2;
  for (const Notable &one : all)
  {
    made.passes.push_back(one.pass);
    const FindingMark mark = mark_of(study.record.passes[one.pass]);
    made.drawing.rectangle(2, y, chart_width - 4, row - 4, {"#ffffff", chart_grid, 1},
                           "data-pass=\"" + std::to_string(one.pass) + "\"");
    made.drawing.rectangle(6, y + 4, 34, row - 12, {mark.ground, chart_rim, 1});
    made.drawing.text(23, y + 21, mark.letters, {15, "middle", mark.ink});
    made.drawing.text(50, y + 21, "pass " + std::to_string(one.pass) + ": " + one.why,
                      {16});
    y += row;
  }
  return made;
}
} // namespace throughbend
