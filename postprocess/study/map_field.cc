#include "postprocess/study/chart_frame.h"
#include "postprocess/study/contour_lines.h"
#include "postprocess/study/finding_mark.h"
#include "postprocess/study/map_chart.h"

#include <array>
#include <limits>
#include <set>

namespace throughbend
{
namespace
{
constexpr double legend_row = 24;
} // namespace

std::vector<double> shown_levels(const StudyKey &key, std::vector<double> values)
{
  for (double &value : values)
    value /= key.scale;
  return values;
}

ContourField field_of(const ReportedStudy &study, const StudyGrid &grid,
                      const std::size_t layer, const std::string &figure)
{
  ContourField field;
  field.x = shown_levels(study.record.keys[0], grid.levels(0));
  field.y = shown_levels(study.record.keys[1], grid.levels(1));
  for (std::size_t j = 0; j < field.y.size(); ++j)
    for (std::size_t i = 0; i < field.x.size(); ++i)
    {
      const std::size_t number  = grid.pass({i, j, layer});
      const bool        is_pass = number != no_pass;
      const StudyPass  *pass    = is_pass ? &study.record.passes[number] : nullptr;
      const bool        left =
          is_pass && (pass->outcome == "through" || pass->outcome == "dropped");
      field.values.push_back(left ? figure_of(*pass, figure)
                                  : std::numeric_limits<double>::quiet_NaN());
      field.groups.push_back(left && pass->outcome == "dropped" ? 1 : 0);
    }
  std::set<std::array<std::size_t, 4>> cells; // a block may reach over several layers
  for (const StudyGrid::Block &block : grid.blocks())
    if (layer >= block.low[2] && layer <= block.high[2] && block.low[0] < block.high[0] &&
        block.low[1] < block.high[1])
      cells.insert({block.low[0], block.low[1], block.high[0], block.high[1]});
  for (const auto &[left, below, right, above] : cells)
    field.cells.push_back({left, below, right, above});
  return field;
}

double draw_legend(Drawing &drawing, const std::vector<StudyPass> &passes, const double top)
{
  constexpr double half = 240, letter = 8.4;
  double           x = 16, y = top;
  for (const auto &[mark, count] : count_marks(passes))
  {
    const std::string words   = mark.brief + ": " + std::to_string(count);
    const bool        is_long = 42 + letter * static_cast<double>(words.size()) > half;
    if (is_long && x > 16)
    {
      x = 16;
      y += legend_row;
    }
    drawing.rectangle(x, y - 16, 32, 20, {mark.ground, chart_rim, 1});
    drawing.text(x + 16, y, mark.letters, {15, "middle", mark.ink});
    drawing.text(x + 42, y, words, {16});
    if (is_long || x > 16)
    {
      x = 16;
      y += legend_row;
    }
    else
      x += half;
  }
  return y - top + (x > 16 ? legend_row : 0);
}

} // namespace throughbend
