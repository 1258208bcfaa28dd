#include "postprocess/study/map_chart.h"

#include "postprocess/chart_labels.h"
#include "postprocess/study/chart_frame.h"
#include "postprocess/study/contour_lines.h"
#include "postprocess/study/finding_mark.h"
#include "postprocess/svg_chart.h"

#include <algorithm>
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

std::vector<double> shown(const StudyKey &key, std::vector<double> values)
{
  for (double &value : values)
    value /= key.scale;
  return values;
}

std::string pass_data(const std::size_t pass)
{
  return "data-pass=\"" + std::to_string(pass) + "\"";
}

void draw_cell(Drawing &drawing, const StudyPass &pass, const std::size_t number,
               const double x, const double y, const double width, const double height)
{
  drawing.rectangle(x, y, width, height, {colour_of(mark_of(pass)), "#ffffff", 1},
                    pass_data(number));
}

/// Letters no smaller than one can read: in every n-th cell where cells are small.
void draw_letter(Drawing &drawing, const StudyPass &pass, const double x, const double y,
                 const double size)
{
  const FindingMark mark = mark_of(pass);
  Lettering         how  = {size, "middle", ink_of(mark)};
  drawing.text(x, y + 0.36 * size, letter_of(mark), how);
}

class MapDrawing
{
public:
  MapDrawing(const ToldStudy &study, const StudyGrid &grid, const std::size_t layer,
             const ReaderUnits &units)
      : study_(study), grid_(grid), layer_(layer), units_(units),
        xs_(shown(study.record.keys[0], grid.levels(0))),
        ys_(shown(study.record.keys[1], grid.levels(1))), x_borders_(cell_borders(xs_)),
        y_borders_(cell_borders(ys_)), drawing_(chart_width, 0, title())
  {
    frame_.x = {key_title(study.record.keys[0]), x_borders_.front(), x_borders_.back()};
    frame_.y = {key_title(study.record.keys[1]), y_borders_.front(), y_borders_.back()};
    frame_.bottom = 352;
  }

  Drawing made()
  {
    cells();
    borders();
    curves("peak_ram_force_N", units_.force_scale().factor, force_look,
           " " + units_.force_scale().unit);
    curves("peak_outer_elongation", 100, stretch_look, " %");
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
  const StudyPass &told(const std::size_t number) const
  {
    return study_.record.passes[number];
  }

  std::vector<StudyPass> layer_passes() const
  {
    std::vector<StudyPass> passes;
    for (std::size_t j = 0; j < ys_.size(); ++j)
      for (std::size_t i = 0; i < xs_.size(); ++i)
        if (pass(i, j) != no_pass)
          passes.push_back(told(pass(i, j)));
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
          draw_cell(drawing_, told(number), number, left(i), top(j), right(i) - left(i),
                    bottom(j) - top(j));
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
        if (number != no_pass && !hidden)
          draw_letter(drawing_, told(number), x, y, size);
      }
  }

  bool differ(const std::size_t a, const std::size_t b) const
  {
    return a != no_pass && b != no_pass && mark_of(told(a)) != mark_of(told(b));
  }

  void borders()
  {
    for (std::size_t j = 0; j < ys_.size(); ++j)
      for (std::size_t i = 0; i < xs_.size(); ++i)
      {
        if (i + 1 < xs_.size() && differ(pass(i, j), pass(i + 1, j)))
          drawing_.line(right(i), top(j), right(i), bottom(j), border_look);
        if (j + 1 < ys_.size() && differ(pass(i, j), pass(i, j + 1)))
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
      std::vector<LabelPlace> places; // on the curve, away from its ends first
      for (const double part : {0.5, 0.3, 0.7, 0.15, 0.85})
      {
        const auto &[x, y] = longest[static_cast<std::size_t>(
            part * static_cast<double>(longest.size() - 1))];
        places.push_back({x, y + 5, "middle"});
      }
      const std::string words = step_text(level, step) + unit;
      const LabelPlace  at    = labels_.put(words, 14, places);
      labelled_.push_back(ChartLabels::box(words, 14, at));
      Lettering how = {14, at.anchor, look.stroke, true};
      how.rimmed    = true;
      drawing_.text(at.x, at.y, words, how);
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
    const StudyKey &kx = study_.record.keys[0], &ky = study_.record.keys[1];
    const double    x = kx.own / kx.scale, y = ky.own / ky.scale;
    own_inside_ =
        x >= frame_.x.low && x <= frame_.x.high && y >= frame_.y.low && y <= frame_.y.high;
    if (own_inside_)
      own_point(drawing_, frame_.px(x), frame_.py(y));
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
    if (drawn_.count("peak_outer_elongation") > 0)
      row(stretch_look, "equal stretch of the convex face [%]");
    if (!rule_text_.empty())
      row(rule_look, "the rule's range: " + rule_text_);
    if (own_inside_)
    {
      own_point(drawing_, 32, y - 5);
      drawing_.text(58, y, "the case's own values", {16});
    }
    else
      drawing_.text(16, y, "The case's own values lie outside this map.", {16});
    y += legend_row;
    if (empty_)
    {
      drawing_.circle(32, y - 5, 2, {"#8a9099", ""});
      drawing_.text(58, y, "not computed", {16});
      y += legend_row;
    }
    return y - top;
  }

  const ToldStudy      &study_;
  const StudyGrid      &grid_;
  std::size_t           layer_;
  const ReaderUnits    &units_;
  std::vector<double>   xs_, ys_, x_borders_, y_borders_;
  ChartFrame            frame_;
  Drawing               drawing_;
  ChartLabels           labels_{{76, 14, chart_width - 18, 350}};
  std::vector<LabelBox> labelled_; ///< by curves
  std::set<std::string> drawn_;
  std::string           rule_text_;
  bool                  own_inside_ = false, empty_ = false;
};
} // namespace

ContourField field_of(const ToldStudy &study, const StudyGrid &grid,
                      const std::size_t layer, const std::string &figure)
{
  ContourField field;
  field.x = shown(study.record.keys[0], grid.levels(0));
  field.y = shown(study.record.keys[1], grid.levels(1));
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
  return field;
}

Drawing map_chart(const ToldStudy &study, const StudyGrid &grid, const std::size_t layer,
                  const ReaderUnits &units)
{
  return MapDrawing(study, grid, layer, units).made();
}

double draw_legend(Drawing &drawing, const std::vector<StudyPass> &passes, const double top)
{
  const std::vector<std::size_t> counts = count_marks(passes);
  std::size_t                    place  = 0;
  for (std::size_t i = 0; i < counts.size(); ++i)
  {
    if (counts[i] == 0)
      continue;
    const FindingMark mark = finding_marks()[i];
    const double      x    = place % 2 == 0 ? 16 : 256,
                 y         = top + legend_row * static_cast<double>(place / 2);
    drawing.rectangle(x, y - 16, 32, 20, {colour_of(mark), chart_rim, 1});
    drawing.text(x + 16, y, letter_of(mark), {15, "middle", ink_of(mark)});
    drawing.text(x + 42, y, brief_name_of(mark) + ": " + std::to_string(counts[i]), {16});
    ++place;
  }
  return legend_row * static_cast<double>((place + 1) / 2);
}

Drawing strip_chart(const ToldStudy &study, const StudyGrid &grid, const ReaderUnits &units)
{
  const StudyKey           &key     = study.record.keys[0];
  const std::vector<double> xs      = shown(key, grid.levels(0));
  const std::vector<double> borders = cell_borders(xs);
  Drawing drawing(chart_width, 0, "Findings, force and stretch over " + key_name(key.key));
  ChartFrame frame;
  frame.x      = {key_title(key), borders.front(), borders.back()};
  frame.bottom = frame.top + 44;

  double least = 1e9;
  for (std::size_t i = 0; i < xs.size(); ++i)
    least = std::min(least, frame.px(borders[i + 1]) - frame.px(borders[i]));
  const double size  = std::clamp(0.6 * least, 11., 17.);
  const auto   every = static_cast<std::size_t>(std::max(1., std::ceil(size / least)));
  std::vector<StudyPass> passes;
  for (std::size_t i = 0; i < xs.size(); ++i)
    if (const std::size_t number = grid.pass({i}); number != no_pass)
    {
      const StudyPass &pass = study.record.passes[number];
      passes.push_back(pass);
      const double left = frame.px(borders[i]), right = frame.px(borders[i + 1]);
      draw_cell(drawing, pass, number, left, frame.top, right - left,
                frame.bottom - frame.top);
      if (i % every == 0)
        draw_letter(drawing, pass, (left + right) / 2, (frame.top + frame.bottom) / 2,
                    size);
    }
  for (std::size_t i = 0; i + 1 < xs.size(); ++i)
  {
    const std::size_t a = grid.pass({i}), b = grid.pass({i + 1});
    if (a != no_pass && b != no_pass &&
        mark_of(study.record.passes[a]) != mark_of(study.record.passes[b]))
      drawing.line(frame.px(borders[i + 1]), frame.top, frame.px(borders[i + 1]),
                   frame.bottom, border_look);
  }
  draw_box(drawing, frame);

  const ReaderUnits::Scale force = units.force_scale();
  double                   top   = frame.bottom + 16;
  for (const auto &[figure, factor, title] :
       {std::tuple<std::string, double, std::string>{"peak_ram_force_N", force.factor,
                                                     "ram force [" + force.unit + "]"},
        {"peak_outer_elongation", 100., "stretch [%]"}})
  {
    std::vector<double> values;
    for (std::size_t i = 0; i < xs.size(); ++i)
    {
      const std::size_t number = grid.pass({i});
      values.push_back(number == no_pass
                           ? std::numeric_limits<double>::quiet_NaN()
                           : factor * figure_of(study.record.passes[number], figure));
    }
    ChartFrame part = frame;
    part.top        = top;
    part.bottom     = top + 150;
    part.y          = axis_for(title, values, Floor::zero);
    draw_y_axis(drawing, part);
    const double capacity = study.own ? factor * study.own->ram.capacity : 0;
    if (figure == "peak_ram_force_N" && capacity > 0 && capacity <= part.y.high &&
        !find_key(study.record, "ram.capacity"))
    {
      drawing.line(part.left, part.py(capacity), part.right, part.py(capacity),
                   {"", limit_ink, 2, {8, 4}});
      Lettering how = {15, "start", limit_ink};
      how.rimmed    = true;
      drawing.text(part.left + 8, part.py(capacity) - 6, "the ram's capacity", how);
    }
    for (std::size_t i = 0; i < xs.size(); ++i)
    {
      const std::size_t number = grid.pass({i}),
                        next   = i + 1 < xs.size() ? grid.pass({i + 1}) : no_pass;
      if (!std::isfinite(values[i]))
        continue;
      if (next != no_pass && std::isfinite(values[i + 1]) &&
          study.record.passes[number].outcome == study.record.passes[next].outcome)
        drawing.line(part.px(xs[i]), part.py(values[i]), part.px(xs[i + 1]),
                     part.py(values[i + 1]), force_look);
    }
    for (std::size_t i = 0; i < xs.size(); ++i)
      if (std::isfinite(values[i]))
        drawing.circle(
            part.px(xs[i]), part.py(values[i]), 4,
            {colour_of(mark_of(study.record.passes[grid.pass({i})])), chart_ink, 1.5});
    if (const double own = key.own / key.scale; own >= part.x.low && own <= part.x.high)
      drawing.line(part.px(own), part.top, part.px(own), part.bottom,
                   {"", chart_ink, 1.4, {3, 3}});
    if (study.answers.has("rule." + key.key))
      for (const char *const end : {".0", ".1"})
        if (const double at = study.answers.number("rule." + key.key + end) / key.scale;
            at > part.x.low && at < part.x.high)
          drawing.line(part.px(at), part.top, part.px(at), part.bottom, rule_look);
    draw_box(drawing, part);
    frame.bottom = part.bottom;
    top          = part.bottom + 16;
  }
  draw_x_levels(drawing, frame, xs);
  double y = frame.bottom + 68;
  y += draw_legend(drawing, passes, y);
  drawing.line(16, y - 5, 48, y - 5, {"", chart_ink, 1.4, {3, 3}});
  drawing.text(
      58, y, "the case's own " + key_name(key.key) + ", " + value_text(key, key.own), {16});
  y += legend_row;
  if (study.answers.has("rule." + key.key))
  {
    drawing.line(16, y - 5, 48, y - 5, rule_look);
    drawing.text(58, y, "an end of the range that the rule allows", {16});
    y += legend_row;
  }
  drawing.grow(y);
  return drawing;
}
} // namespace throughbend
