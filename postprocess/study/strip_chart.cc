#include "postprocess/study/chart_frame.h"
#include "postprocess/study/finding_mark.h"
#include "postprocess/study/map_chart.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
const Look border_look = {"", chart_ink, 3}, line_look = {"", chart_ink, 1.6},
           rule_look = {"", limit_ink, 2, {2, 3}}, own_look = {"", chart_ink, 1.4, {3, 3}},
           capacity_look = {"", limit_ink, 2, {8, 4}};

constexpr double row = 24;

class StripDrawing
{
public:
  StripDrawing(const ReportedStudy &study, const StudyGrid &grid, const ReaderUnits &units)
      : study_(study), grid_(grid), units_(units), key_(study.record.keys[0]),
        drawing_(chart_width, 0, "Findings, force and stretch over " + key_name(key_.key))
  {
    for (const double level : grid.levels(0))
      xs_.push_back(level / key_.scale);
    borders_      = cell_borders(xs_);
    frame_.x      = {key_title(key_), borders_.front(), borders_.back()};
    frame_.bottom = frame_.top + 44;
  }

  Drawing made()
  {
    cells();
    figure("peak_ram_force_N", units_.force_scale().factor,
           "ram force [" + units_.force_scale().unit + "]");
    figure("peak_face_elongation", 100, "stretch [%]");
    draw_x_levels(drawing_, frame_, xs_);
    legend();
    return drawing_;
  }

private:
  const StudyPass &reported(const std::size_t number) const
  {
    return study_.record.passes[number];
  }
  std::size_t pass(const std::size_t i) const { return grid_.pass({i, 0, 0}); }
  std::size_t found(const std::size_t i) const
  {
    return pass(i) != no_pass ? pass(i) : grid_.pass_around({i, 0, 0});
  }
  double left(const std::size_t i) const { return frame_.px(borders_[i]); }
  double right(const std::size_t i) const { return frame_.px(borders_[i + 1]); }

  void cells()
  {
    double least = 1e9;
    for (std::size_t i = 0; i < xs_.size(); ++i)
      least = std::min(least, right(i) - left(i));
    const double size   = std::clamp(0.6 * least, 11., 17.);
    const auto   every  = static_cast<std::size_t>(std::max(1., std::ceil(size / least)));
    const double height = frame_.bottom - frame_.top;
    for (std::size_t i = 0; i < xs_.size(); ++i)
    {
      if (found(i) == no_pass)
        continue;
      const FindingMark mark = mark_of(reported(found(i)));
      if (pass(i) == no_pass)
      {
        inferred_ = true;
        drawing_.rectangle(left(i), frame_.top, right(i) - left(i), height,
                           {paler(mark.ground), ""});
        continue;
      }
      passes_.push_back(reported(pass(i)));
      drawing_.rectangle(left(i), frame_.top, right(i) - left(i), height,
                         {mark.ground, "#ffffff", 1},
                         "data-pass=\"" + std::to_string(pass(i)) + "\"");
      if (i % every == 0)
        drawing_.text((left(i) + right(i)) / 2, frame_.top + height / 2 + 0.36 * size,
                      mark.letters, {size, "middle", mark.ink});
    }
    for (std::size_t i = 0; i + 1 < xs_.size(); ++i)
      if (found(i) != no_pass && found(i + 1) != no_pass &&
          !find_the_same(reported(found(i)), reported(found(i + 1))))
        drawing_.line(right(i), frame_.top, right(i), frame_.bottom, border_look);
    draw_box(drawing_, frame_);
  }

  /// One figure below the strip, on the same axis. Lines join neighbours of one outcome.
  void figure(const std::string &name, const double factor, const std::string &title)
  {
    std::vector<double>      values;
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < xs_.size(); ++i)
      if (pass(i) != no_pass)
        if (const double value = factor * figure_of(reported(pass(i)), name);
            std::isfinite(value))
        {
          places.push_back(i);
          values.push_back(value);
        }
    ChartFrame part = frame_;
    part.top        = frame_.bottom + 16;
    part.bottom     = part.top + 150;
    part.y          = axis_for(title, values, Floor::zero);
    draw_y_axis(drawing_, part);
    const double capacity =
        study_.own && name == "peak_ram_force_N" && !find_key(study_.record, "ram.capacity")
            ? factor * study_.own->ram.capacity
            : 0;
    if (capacity > 0 && capacity <= part.y.high)
    {
      drawing_.line(part.left, part.py(capacity), part.right, part.py(capacity),
                    capacity_look);
      Lettering how = {15, "start", limit_ink};
      how.rimmed    = true;
      drawing_.text(part.left + 8,
                    part.py(capacity) + (part.py(capacity) < part.top + 20 ? 18 : -6),
                    "the ram's capacity", how);
    }
    for (std::size_t k = 0; k + 1 < places.size(); ++k)
      if (joined(places[k], places[k + 1]))
        drawing_.line(part.px(xs_[places[k]]), part.py(values[k]),
                      part.px(xs_[places[k + 1]]), part.py(values[k + 1]), line_look);
    for (std::size_t k = 0; k < places.size(); ++k)
      drawing_.circle(part.px(xs_[places[k]]), part.py(values[k]), 4,
                      {mark_of(reported(pass(places[k]))).ground, chart_ink, 1.5});
    if (const double own = key_.own / key_.scale; own >= part.x.low && own <= part.x.high)
      drawing_.line(part.px(own), part.top, part.px(own), part.bottom, own_look);
    for (const char *const end : {".0", ".1"})
      if (const double at = study_.answers.number("rule." + key_.key + end) / key_.scale;
          at > part.x.low && at < part.x.high)
        drawing_.line(part.px(at), part.top, part.px(at), part.bottom, rule_look);
    draw_box(drawing_, part);
    frame_.bottom = part.bottom;
  }

  /// No place between the two has another finding, or none.
  bool joined(const std::size_t a, const std::size_t b) const
  {
    if (reported(pass(a)).outcome != reported(pass(b)).outcome)
      return false;
    for (std::size_t i = a + 1; i < b; ++i)
      if (found(i) == no_pass || !has_finding(reported(found(i))))
        return false;
    return true;
  }

  void legend()
  {
    double y = frame_.bottom + 76;
    y += draw_legend(drawing_, passes_, y);
    const auto line = [&](const Look &look, const std::string &words)
    {
      drawing_.line(16, y - 5, 48, y - 5, look);
      drawing_.text(58, y, words, {16});
      y += row;
    };
    line(own_look,
         "the case's own " + key_name(key_.key) + ", " + value_text(key_, key_.own));
    if (study_.answers.has("rule." + key_.key))
      line(rule_look, "an end of the range that the rule allows");
    if (inferred_)
    {
      drawing_.text(58, y, "pale: not computed, the passes around agree", {16});
      y += row;
    }
    drawing_.grow(y);
  }

  const ReportedStudy   &study_;
  const StudyGrid       &grid_;
  const ReaderUnits     &units_;
  const StudyKey        &key_;
  Drawing                drawing_;
  std::vector<double>    xs_, borders_;
  ChartFrame             frame_;
  std::vector<StudyPass> passes_;
  bool                   inferred_ = false;
};
} // namespace

Drawing strip_chart(const ReportedStudy &study, const StudyGrid &grid,
                    const ReaderUnits &units)
{
  return StripDrawing(study, grid, units).made();
}
} // namespace throughbend
