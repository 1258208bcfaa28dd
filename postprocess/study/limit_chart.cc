#include "postprocess/study/limit_chart.h"

#include "postprocess/charts/chart_labels.h"
#include "postprocess/study/chart_frame.h"
#include "postprocess/study/finding_mark.h"
#include "postprocess/study/map_chart.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double square = 20, row = square + 3;

/// Rows above the axis for marks at these places, so that none lies on another.
std::vector<std::size_t> rows_for(const std::vector<double> &places)
{
  std::vector<std::size_t> order(places.size()), rows(places.size());
  for (std::size_t i = 0; i < order.size(); ++i)
    order[i] = i;
  std::sort(order.begin(), order.end(),
            [&](const std::size_t a, const std::size_t b)
            { return places[a] < places[b]; });
  std::vector<double> last; // place of the last mark in each row
  for (const std::size_t i : order)
  {
    std::size_t r = 0;
    while (r < last.size() && places[i] - last[r] < row)
      ++r;
    if (r == last.size())
      last.push_back(0);
    last[r] = places[i];
    rows[i] = r;
  }
  return rows;
}

/// `here` is the place of the key's limit in the answers; there may be nothing yet.
void panel(Drawing &drawing, const ReportedStudy &study, const StudyKey *const key,
           const std::string &here)
{
  const StudyRecord             &record  = study.record;
  const JsonMembers             &answers = study.answers;
  const auto                     k     = static_cast<std::size_t>(key - record.keys.data());
  const std::vector<std::size_t> along = passes_along(record, k);

  std::vector<double> values;
  for (const std::size_t pass : along)
    values.push_back(record.passes[pass].values[k] / key->scale);
  for (const char *const end : {".from", ".to"})
    if (const double at = answers.number(here + end) / key->scale; std::isfinite(at))
      values.push_back(at);
  const double        check = answers.number(here + ".check.value") / key->scale;
  std::vector<double> all   = values;
  if (std::isfinite(check))
    all.push_back(check);

  ChartFrame frame;
  frame.left  = 28;
  frame.right = chart_width - 28;
  frame.x     = axis_for(key_title(*key), all, Floor::values);
  std::vector<double> places;
  for (const std::size_t pass : along)
    places.push_back(frame.px(record.passes[pass].values[k] / key->scale));
  const std::vector<std::size_t> rows = rows_for(places);
  const std::size_t              n_rows =
      rows.empty() ? 1 : *std::max_element(rows.begin(), rows.end()) + 1;
  const bool has_labels = std::isfinite(check) || answers.has(here + ".changes.0");
  frame.top             = drawing.height() + (has_labels ? 62 : 22);
  frame.bottom          = frame.top + row * static_cast<double>(n_rows) + 12;
  draw_x_axis(drawing, frame);
  draw_box(drawing, frame);

  ChartLabels labels({4, frame.top - 60, chart_width - 4, frame.top});
  const auto  label = [&](const std::string &words, const double x, const double y,
                         const std::string &colour)
  {
    std::vector<LabelPlace> tried;
    for (const double up : {y, y - 18, y - 36})
      for (const char *const anchor : {"middle", "start", "end"})
        tried.push_back({x, up, anchor});
    const LabelPlace at  = labels.put(words, 15, tried);
    Lettering        how = {15, at.anchor, colour, true};
    how.rimmed           = true;
    drawing.text(at.x, at.y, words, how);
  };
  for (std::size_t c = 0; answers.has(here + ".changes." + std::to_string(c)); ++c)
  {
    const std::string change = here + ".changes." + std::to_string(c);
    const double      below  = answers.number(change + ".below.value"),
                 above       = answers.number(change + ".above.value");
    const double from = frame.px(below / key->scale), to = frame.px(above / key->scale);
    drawing.rectangle(std::min(from, to), frame.top, std::max(std::abs(to - from), 2.),
                      frame.bottom - frame.top, {"#c9ced6", ""});
    drawing.line((from + to) / 2, frame.top - 4, (from + to) / 2, frame.bottom,
                 {"", chart_ink, 3});
    label("between " + number_in_unit(*key, below) + " and " + value_text(*key, above),
          (from + to) / 2, frame.top - 8, chart_ink);
  }
  if (std::isfinite(check))
  {
    drawing.line(frame.px(check), frame.top - 4, frame.px(check), frame.bottom,
                 {"", limit_ink, 2, {6, 3}});
    label("check: " + value_text(*key, check * key->scale), frame.px(check), frame.top - 8,
          limit_ink);
  }
  if (const double own = key->own / key->scale; own >= frame.x.low && own <= frame.x.high)
    drawing.area({{frame.px(own) - 7, frame.bottom + 7},
                  {frame.px(own) + 7, frame.bottom + 7},
                  {frame.px(own), frame.bottom - 5}},
                 {chart_ink, "#ffffff", 1});
  for (std::size_t i = 0; i < along.size(); ++i)
  {
    const FindingMark mark = mark_of(record.passes[along[i]]);
    const double      y = frame.bottom - 10 - row * static_cast<double>(rows[i]) - square;
    drawing.rectangle(places[i] - square / 2, y, square, square,
                      {mark.ground, chart_rim, 1},
                      "data-pass=\"" + std::to_string(along[i]) + "\"");
    drawing.text(places[i], y + 15, mark.letters, {14, "middle", mark.ink});
  }
  drawing.grow(frame.bottom + 52 - drawing.height());
}
} // namespace

std::vector<std::size_t> passes_along(const StudyRecord &record, const std::size_t key)
{
  const auto is_own = [&](const StudyPass &pass, const std::size_t k)
  {
    const double own = record.keys[k].own;
    return std::abs(pass.values[k] - own) <=
           1e-9 * std::max({std::abs(own), std::abs(pass.values[k]), 1e-9});
  };
  std::vector<std::size_t> along;
  for (std::size_t p = 0; p < record.passes.size(); ++p)
  {
    const StudyPass &pass  = record.passes[p];
    bool             alone = pass.values.size() == record.keys.size();
    for (std::size_t k = 0; alone && k < record.keys.size(); ++k)
      alone = k == key || is_own(pass, k);
    if (alone)
      along.push_back(p);
  }
  return along;
}

Drawing limit_chart(const ReportedStudy &study)
{
  Drawing drawing(chart_width, 0, "Where the finding changes along each key");
  for (std::size_t i = 0; study.answers.has("limits." + std::to_string(i)); ++i)
    if (const StudyKey *key = find_key(
            study.record, study.answers.word("limits." + std::to_string(i) + ".key")))
      panel(drawing, study, key, "limits." + std::to_string(i));
  if (!study.answers.has("limits.0")) // under way: the passes so far
    for (const StudyKey &key : study.record.keys)
      panel(drawing, study, &key, "limits.none");
  const double top = drawing.height() + 28;
  double       y   = top + draw_legend(drawing, study.record.passes, top);
  drawing.area({{25, y + 1}, {39, y + 1}, {32, y - 11}}, {chart_ink, "", 1});
  drawing.text(58, y, "the case's own value", {16});
  y += 24;
  drawing.line(32, y - 16, 32, y + 2, {"", chart_ink, 3});
  drawing.text(58, y, "the finding changes here, nothing is", {16});
  drawing.text(58, y + 20, "computed between the two values", {16});
  y += 20;
  drawing.grow(y + 12 - drawing.height());
  return drawing;
}

Drawing band_chart(const ReportedStudy &study)
{
  const JsonMembers &answers = study.answers;
  Drawing            drawing(chart_width, 0,
                             "Band of each dimension in which the family goes through");
  for (std::size_t i = 0; answers.has("bands." + std::to_string(i)); ++i)
  {
    const std::string here = "bands." + std::to_string(i);
    const std::string name = answers.word(here + ".key");
    const StudyKey   *key  = find_key(study.record, name);
    StudyKey          plain;
    plain.key                  = name;
    const StudyKey &shown      = key ? *key : plain;
    const double    low        = answers.number(here + ".low") / shown.scale,
                 high          = answers.number(here + ".high") / shown.scale,
                 chosen        = answers.number("fixture." + name) / shown.scale;
    std::vector<double> values = {low, high, chosen};
    for (std::size_t l = 0; answers.has("limited_by." + std::to_string(l)); ++l)
      if (const std::string by = "limited_by." + std::to_string(l);
          answers.word(by + ".key") == name)
        for (const char *const side : {".low.next", ".high.next"})
          values.push_back(answers.number(by + side) / shown.scale);
    ChartFrame frame;
    frame.left   = 28;
    frame.right  = chart_width - 28;
    frame.top    = drawing.height() + 12;
    frame.bottom = frame.top + 44;
    frame.x      = axis_for(key_title(shown), values, Floor::values);
    draw_x_axis(drawing, frame);
    if (high > low)
      drawing.rectangle(frame.px(low), frame.top + 8, frame.px(high) - frame.px(low), 28,
                        {"#8fd1b5", chart_ink, 1.5});
    for (std::size_t v = 3; v < values.size(); ++v)
      if (std::isfinite(values[v]))
        drawing.line(frame.px(values[v]), frame.top, frame.px(values[v]), frame.bottom,
                     {"", limit_ink, 2, {6, 3}});
    if (std::isfinite(chosen))
      drawing.circle(frame.px(chosen), frame.top + 22, 6, {"#ffffff", chart_ink, 2.4});
    draw_box(drawing, frame);
    drawing.grow(frame.bottom + 58 - drawing.height());
  }
  const double y = drawing.height() + 14;
  drawing.circle(24, y - 5, 6, {"#ffffff", chart_ink, 2.4});
  drawing.text(40, y, "chosen", {16});
  drawing.rectangle(118, y - 16, 28, 18, {"#8fd1b5", chart_ink, 1.5});
  drawing.text(154, y, "band", {16});
  drawing.line(224, y - 16, 224, y + 2, {"", limit_ink, 2, {6, 3}});
  drawing.text(236, y, "no longer good here", {16});
  drawing.grow(28);
  return drawing;
}
} // namespace throughbend
