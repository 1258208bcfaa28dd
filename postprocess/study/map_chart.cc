#include "postprocess/study/map_chart.h"

#include "postprocess/charts/chart_labels.h"
#include "postprocess/charts/svg_chart.h"
#include "postprocess/study/chart_frame.h"
#include "postprocess/study/contour_lines.h"
#include "postprocess/study/finding_mark.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <limits>
#include <set>
#include <tuple>

namespace throughbend
{
namespace
{
const Look border_look = {"", chart_ink, 3}, force_look = {"", chart_ink, 1.6},
           stretch_look = {"", "#0b3f8a", 1.9, {6, 3}},
           rule_look    = {"", limit_ink, 2, {2, 3}};

constexpr double legend_row = 24;

std::string pass_data(const std::size_t pass)
{
  return "data-pass=\"" + std::to_string(pass) + "\"";
}

void draw_cell(Drawing &drawing, const StudyPass &pass, const std::size_t number,
               const double x, const double y, const double width, const double height)
{
  drawing.rectangle(x, y, width, height, {mark_of(pass).ground, "#ffffff", 1},
                    pass_data(number));
}

/// Letters no smaller than one can read: in every n-th cell where cells are small.
void draw_letter(Drawing &drawing, const StudyPass &pass, const double x, const double y,
                 const double size)
{
  const FindingMark mark = mark_of(pass);
  drawing.text(x, y + 0.36 * size, mark.letters, {size, "middle", mark.ink});
}

std::string small(std::string letters)
{
  for (char &c : letters)
    c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return letters;
}

/// At a share of a curve's length.
std::pair<double, double> along(const Points &curve, const double part)
{
  const auto size = [&](const std::size_t i)
  {
    return std::hypot(curve[i].first - curve[i - 1].first,
                      curve[i].second - curve[i - 1].second);
  };
  double all = 0;
  for (std::size_t i = 1; i < curve.size(); ++i)
    all += size(i);
  double left = part * all;
  for (std::size_t i = 1; i < curve.size(); ++i)
  {
    const double here = size(i);
    if (left <= here && here > 0)
      return {curve[i - 1].first + left / here * (curve[i].first - curve[i - 1].first),
              curve[i - 1].second + left / here * (curve[i].second - curve[i - 1].second)};
    left -= here;
  }
  return curve.back();
}

class MapDrawing
{
public:
  MapDrawing(const ReportedStudy &study, const StudyGrid &grid, const std::size_t layer,
             const ReaderUnits &units)
      : study_(study), grid_(grid), layer_(layer), units_(units),
        xs_(shown_levels(study.record.keys[0], grid.levels(0))),
        ys_(shown_levels(study.record.keys[1], grid.levels(1))),
        x_borders_(cell_borders(xs_)), y_borders_(cell_borders(ys_)),
        drawing_(chart_width, 0, title())
  {
    frame_.x = {key_title(study.record.keys[0]), x_borders_.front(), x_borders_.back()};
    frame_.y = {key_title(study.record.keys[1]), y_borders_.front(), y_borders_.back()};
    frame_.bottom = 352;
    frame_.left   = room_for_levels(ys_);
  }

  Drawing made()
  {
    cells();
    borders();
    curves("peak_ram_force_N", units_.force_scale().factor, force_look,
           " " + units_.force_scale().unit);
    curves("peak_face_elongation", 100, stretch_look, " %");
    rule();
    letters();
    own();
    draw_x_levels(drawing_, frame_, xs_);
    draw_y_levels(drawing_, frame_, ys_);
    draw_box(drawing_, frame_);
    double y = frame_.bottom + 76;
    y += draw_legend(drawing_, layer_passes(), y);
    y += lines_legend(y);
    drawing_.grow(y);
    return drawing_;
  }

private:
  std::string title() const
  {
    const auto &keys = study_.record.keys;
    std::string text =
        "Findings over " + key_name(keys[0].key) + " and " + key_name(keys[1].key);
    if (keys.size() > 2)
      text += " at " + key_name(keys[2].key) + " " +
              value_text(keys[2], grid_.levels(2)[layer_]);
    return text;
  }

  std::size_t pass(const std::size_t i, const std::size_t j) const
  {
    return grid_.pass({i, j, layer_});
  }
  const StudyPass &reported(const std::size_t number) const
  {
    return study_.record.passes[number];
  }

  std::vector<StudyPass> layer_passes() const
  {
    std::vector<StudyPass> passes;
    for (std::size_t j = 0; j < ys_.size(); ++j)
      for (std::size_t i = 0; i < xs_.size(); ++i)
        if (pass(i, j) != no_pass)
          passes.push_back(reported(pass(i, j)));
    for (const std::size_t number : own_passes_)
      passes.push_back(reported(number));
    return passes;
  }

  double left(const std::size_t i) const { return frame_.px(x_borders_[i]); }
  double top(const std::size_t j) const { return frame_.py(y_borders_[j + 1]); }
  double right(const std::size_t i) const { return frame_.px(x_borders_[i + 1]); }
  double bottom(const std::size_t j) const { return frame_.py(y_borders_[j]); }

  void cells()
  {
    for (std::size_t j = 0; j < ys_.size(); ++j)
      for (std::size_t i = 0; i < xs_.size(); ++i)
        if (const std::size_t number = pass(i, j); number != no_pass)
          draw_cell(drawing_, reported(number), number, left(i), top(j), right(i) - left(i),
                    bottom(j) - top(j));
        else if (const std::size_t around = grid_.pass_around({i, j, layer_});
                 around != no_pass)
        {
          drawing_.rectangle(left(i), top(j), right(i) - left(i), bottom(j) - top(j),
                             {paler(mark_of(reported(around)).ground), ""});
          inferred_ = true;
        }
        else
        {
          empty_ = true;
          drawing_.circle((left(i) + right(i)) / 2, (top(j) + bottom(j)) / 2, 1.5,
                          {"#8a9099", ""});
        }
  }

  /// Not below the labels of curves; the cells around say enough there.
  void letters()
  {
    double least = 1e9;
    for (std::size_t i = 0; i < xs_.size(); ++i)
      least = std::min(least, right(i) - left(i));
    for (std::size_t j = 0; j < ys_.size(); ++j)
      least = std::min(least, bottom(j) - top(j));
    const double size  = std::clamp(0.6 * least, 11., 17.);
    const auto   every = static_cast<std::size_t>(std::max(1., std::ceil(size / least)));
    for (std::size_t j = 0; j < ys_.size(); j += every)
      for (std::size_t i = 0; i < xs_.size(); i += every)
      {
        const std::size_t number = pass(i, j);
        const double      x = (left(i) + right(i)) / 2, y = (top(j) + bottom(j)) / 2;
        const bool        hidden = std::any_of(labelled_.begin(), labelled_.end(),
                                               [&](const LabelBox &box) {
                                          return x + 6 > box.left && x - 6 < box.right &&
                                                 y + 7 > box.top && y - 7 < box.bottom;
                                        });
        if (hidden)
          continue;
        if (number != no_pass)
          draw_letter(drawing_, reported(number), x, y, size);
        else if (const std::size_t around = grid_.pass_around({i, j, layer_});
                 around != no_pass)
          drawing_.text(x, y + 0.3 * size, small(mark_of(reported(around)).letters),
                        {0.85 * size, "middle", "#3d4550"});
      }
  }

  /// The pass at a place, or one of those around it that agree.
  std::size_t found(const std::size_t i, const std::size_t j) const
  {
    const std::size_t number = pass(i, j);
    return number != no_pass ? number : grid_.pass_around({i, j, layer_});
  }

  bool differ(const std::size_t a, const std::size_t b) const
  {
    return a != no_pass && b != no_pass && !find_the_same(reported(a), reported(b));
  }

  void borders()
  {
    for (std::size_t j = 0; j < ys_.size(); ++j)
      for (std::size_t i = 0; i < xs_.size(); ++i)
      {
        if (i + 1 < xs_.size() && differ(found(i, j), found(i + 1, j)))
          drawing_.line(right(i), top(j), right(i), bottom(j), border_look);
        if (j + 1 < ys_.size() && differ(found(i, j), found(i, j + 1)))
          drawing_.line(left(i), top(j), right(i), top(j), border_look);
      }
  }

  void curves(const std::string &figure, const double factor, const Look &look,
              const std::string &unit)
  {
    ContourField field = field_of(study_, grid_, layer_, figure);
    double       low = INFINITY, high = -INFINITY;
    for (double &value : field.values)
    {
      value *= factor;
      low  = std::isfinite(value) ? std::min(low, value) : low;
      high = std::isfinite(value) ? std::max(high, value) : high;
    }
    if (!(high > low))
      return;
    const std::vector<double> levels = ticks(low, high, 5);
    const double              step = levels.size() > 1 ? levels[1] - levels[0] : high - low;
    for (const double level : levels)
    {
      const std::vector<Points> curves = contour_lines(field, level);
      Points                    longest;
      for (Points curve : curves)
      {
        for (auto &[x, y] : curve)
        {
          x = frame_.px(x);
          y = frame_.py(y);
        }
        drawing_.path(curve, look);
        drawn_.insert(figure);
        if (curve.size() > longest.size())
          longest = curve;
      }
      if (longest.empty())
        continue;
      label(longest, step_text(level, step) + unit, look.stroke);
    }
  }

  /// On the curve where no other label stands; none where there is no room.
  void label(const Points &curve, const std::string &words, const std::string &colour)
  {
    for (const double part :
         {0.5, 0.35, 0.65, 0.2, 0.8, 0.42, 0.58, 0.27, 0.73, 0.08, 0.92})
    {
      const auto [x, y]    = along(curve, part);
      const LabelPlace at  = {x, y + 5, "middle"};
      const LabelBox   box = ChartLabels::box(words, 14, at);
      const bool       taken =
          std::any_of(labelled_.begin(), labelled_.end(),
                      [&](const LabelBox &other)
                      {
                        return box.left < other.right + 8 && other.left < box.right + 8 &&
                               box.top < other.bottom && other.top < box.bottom;
                      });
      if (taken || box.left < frame_.left || box.right > frame_.right)
        continue;
      labelled_.push_back(box);
      Lettering how = {14, at.anchor, colour, true};
      how.rimmed    = true;
      drawing_.text(at.x, at.y, words, how);
      return;
    }
  }

  /// The range that the case's rule allows: its ends across the map, and a bar at the axis.
  void rule()
  {
    for (const std::size_t k : {0, 1})
    {
      const StudyKey   &key  = study_.record.keys[k];
      const std::string here = "rule." + key.key + ".";
      if (!study_.answers.has("rule." + key.key))
        continue;
      const FrameAxis &axis = k == 0 ? frame_.x : frame_.y;
      const double     low  = study_.answers.number(here + "0") / key.scale,
                   high     = study_.answers.number(here + "1") / key.scale;
      for (const double end : {low, high})
        if (std::isfinite(end) && end > axis.low && end < axis.high)
        {
          if (k == 0)
            drawing_.line(frame_.px(end), frame_.top, frame_.px(end), frame_.bottom,
                          rule_look);
          else
            drawing_.line(frame_.left, frame_.py(end), frame_.right, frame_.py(end),
                          rule_look);
        }
      const double from =
                       std::clamp(std::isfinite(low) ? low : axis.low, axis.low, axis.high),
                   to = std::clamp(std::isfinite(high) ? high : axis.high, axis.low,
                                   axis.high);
      rule_text_ +=
          (rule_text_.empty() ? "" : "; ") + key_name(key.key) +
          (std::isfinite(low) ? " at least " + value_text(key, low * key.scale) : "") +
          (std::isfinite(low) && std::isfinite(high) ? "," : "") +
          (std::isfinite(high) ? " at most " + value_text(key, high * key.scale) : "");
      if (to > from && k == 0)
        drawing_.rectangle(frame_.px(from), frame_.bottom - 5,
                           frame_.px(to) - frame_.px(from), 5, {limit_ink, ""});
      else if (to > from)
        drawing_.rectangle(frame_.left, frame_.py(to), 5, frame_.py(from) - frame_.py(to),
                           {limit_ink, ""});
    }
  }

  void own()
  {
    const auto  &keys = study_.record.keys;
    const double x = keys[0].own / keys[0].scale, y = keys[1].own / keys[1].scale;
    own_inside_ =
        x >= frame_.x.low && x <= frame_.x.high && y >= frame_.y.low && y <= frame_.y.high;
    if (keys.size() > 2) // only in the layer that has the own value
      own_inside_ = own_inside_ && std::abs(grid_.levels(2)[layer_] - keys[2].own) <=
                                       1e-9 * std::abs(keys[2].own);
    if (!own_inside_)
      return;
    // Its pass may lie between those of the grid, and can be picked all the same.
    for (std::size_t p = 0; p < study_.record.passes.size(); ++p)
      if (is_own_pass(p) && !is_in_layer(p))
      {
        own_passes_.push_back(p);
        drawing_.rectangle(frame_.px(x) - 11, frame_.py(y) - 11, 22, 22,
                           {mark_of(reported(p)).ground, ""}, pass_data(p));
      }
    own_point(drawing_, frame_.px(x), frame_.py(y));
  }

  bool is_in_layer(const std::size_t number) const
  {
    for (std::size_t j = 0; j < ys_.size(); ++j)
      for (std::size_t i = 0; i < xs_.size(); ++i)
        if (pass(i, j) == number)
          return true;
    return false;
  }

  bool is_own_pass(const std::size_t number) const
  {
    const auto &keys   = study_.record.keys;
    const auto &values = reported(number).values;
    for (std::size_t k = 0; k < keys.size(); ++k)
      if (k >= values.size() ||
          std::abs(values[k] - keys[k].own) > 1e-9 * std::max(std::abs(keys[k].own), 1e-9))
        return false;
    return true;
  }

  static void own_point(Drawing &drawing, const double x, const double y)
  {
    drawing.circle(x, y, 9, {"", "#ffffff", 5});
    drawing.circle(x, y, 9, {"", chart_ink, 2.4});
    drawing.circle(x, y, 2.2, {chart_ink, ""});
  }

  double lines_legend(const double top)
  {
    double     y   = top;
    const auto row = [&](const Look &look, const std::string &words)
    {
      drawing_.line(16, y - 5, 48, y - 5, look);
      for (const std::string &line : lines_of(words, 52))
      {
        drawing_.text(58, y, line, {16});
        y += legend_row;
      }
    };
    row(border_look, "border between findings");
    if (drawn_.count("peak_ram_force_N") > 0)
      row(force_look, "equal largest ram force [" + units_.force_scale().unit + "]");
    if (drawn_.count("peak_face_elongation") > 0)
      row(stretch_look, "equal stretch of the convex face [%]");
    if (!rule_text_.empty())
      row(rule_look, "the rule's range: " + rule_text_);
    if (own_inside_)
    {
      own_point(drawing_, 32, y - 5);
      drawing_.text(58, y, "the case's own values", {16});
    }
    else
      drawing_.text(16, y, "The case's own values lie in no place of this map.", {16});
    y += legend_row;
    if (inferred_)
    {
      drawing_.rectangle(16, y - 16, 32, 20, {paler("#8fd1b5"), chart_rim, 1});
      drawing_.text(32, y, "t", {14, "middle", "#3d4550"});
      for (const char *const line :
           {"small letters: not computed, all passes",
            "around agree (a star is of any of them);", "a small patch of another finding",
            "between them would not be seen"})
      {
        drawing_.text(58, y, line, {16});
        y += legend_row - 3;
      }
    }
    if (empty_)
    {
      drawing_.circle(32, y - 5, 2, {"#8a9099", ""});
      drawing_.text(58, y, "not computed", {16});
      y += legend_row;
    }
    return y - top;
  }

  const ReportedStudy     &study_;
  const StudyGrid         &grid_;
  std::size_t              layer_;
  const ReaderUnits       &units_;
  std::vector<double>      xs_, ys_, x_borders_, y_borders_;
  ChartFrame               frame_;
  Drawing                  drawing_;
  std::vector<std::size_t> own_passes_; ///< off the grid
  std::vector<LabelBox>    labelled_;   ///< by curves
  std::set<std::string>    drawn_;
  std::string              rule_text_;
  bool                     own_inside_ = false, empty_ = false, inferred_ = false;
};
} // namespace

Drawing map_chart(const ReportedStudy &study, const StudyGrid &grid,
                  const std::size_t layer, const ReaderUnits &units)
{
  return MapDrawing(study, grid, layer, units).made();
}
} // namespace throughbend
