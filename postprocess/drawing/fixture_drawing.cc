#include "postprocess/drawing/fixture_drawing.h"

#include "inputs/text/own_file.h"
#include "inputs/units/shop_fraction.h"
#include "postprocess/drawing/dxf.h"
#include "postprocess/drawing/fixture_views.h"
#include "postprocess/drawing/title_block.h"
#include "solver/record/tool_file.h"
#include "solver/setup/pass_tools.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>

namespace throughbend
{
namespace
{
constexpr double border       = 10;                  // of the sheet [mm]
constexpr double right_column = 98, line_step = 4.3; // [mm]
constexpr double most_notes = 62;                    // height that notes may take [mm]

/// Paper on its side, with the frame drawn on it.
struct Paper
{
  const char *name;
  double      width, height; ///< [mm]

  Box frame() const { return {{border, border}, {width - border, height - border}}; }
};
constexpr Paper a4 = {"A4", 297, 210}, us_letter = {"Letter", 279.4, 215.9};

const Paper &paper_for(const UnitSystem units)
{
  return units == UnitSystem::us ? us_letter : a4;
}

/// Paper over world; ISO 5455 and, between them, 1:2.5, 1:4, 1:15.
struct Scale
{
  double      factor;
  const char *name;
};
constexpr std::array<Scale, 16> scales = {{{50, "50:1"},
                                           {20, "20:1"},
                                           {10, "10:1"},
                                           {5, "5:1"},
                                           {2, "2:1"},
                                           {1, "1:1"},
                                           {1 / 2., "1:2"},
                                           {1 / 2.5, "1:2.5"},
                                           {1 / 4., "1:4"},
                                           {1 / 5., "1:5"},
                                           {1 / 10., "1:10"},
                                           {1 / 15., "1:15"},
                                           {1 / 20., "1:20"},
                                           {1 / 50., "1:50"},
                                           {1 / 100., "1:100"},
                                           {1 / 200., "1:200"}}};

/// The largest scale at which a view fits, and the view.
std::pair<Scale, View> largest_within(const Box                         &room,
                                      const std::function<View(double)> &drawn)
{
  for (const Scale &scale : scales)
  {
    View      view   = drawn(scale.factor);
    const Box bounds = view.marks.bounds();
    if (bounds.width() <= room.width() && bounds.height() <= room.height())
      return {scale, std::move(view)};
  }
  return {scales.back(), drawn(scales.back().factor)};
}

/// Returns where the view's origin lies on the sheet.
PlaneVector place_in(const Box &room, const View &view, FixtureSheet &on,
                     const std::optional<Layer> layer = {})
{
  const Box         bounds = view.marks.bounds();
  const PlaneVector shift  = 0.5 * (room.low + room.high - bounds.low - bounds.high);
  on.sheet.place(view.marks, shift, layer);
  for (DrawnDimension dimension : view.dimensions)
  {
    dimension.from = dimension.from + shift;
    dimension.to   = dimension.to + shift;
    on.dimensions.push_back(dimension);
  }
  return shift;
}

std::vector<std::string> clearance_words(const DrawnFixture &drawn)
{
  const auto length_words = [&](const double value)
  { return both_text(value, drawn.units); };
  const double clearance = drawn.clearance();
  if (drawn.pinch() <= 0)
    return {"The plunger is as wide as the opening or wider: it does not pass."};
  if (clearance < -0.005)
    return {"PINCH: the leg is " + length_words(-clearance) +
            " thicker than the room between plunger and shoulder. It is ironed, or jams."};
  if (clearance < 0.005)
    return {"No clearance: a leg that bending thickens is pinched."};
  return {"Clearance per side S = " + length_words(clearance) +
          ". A leg thicker than P = " + length_words(drawn.pinch()) + " is pinched."};
}

struct TableRow
{
  std::string letter, what;
  double      value;
};

std::vector<TableRow> table_rows(const DrawnFixture &drawn, const DrawingSubject &subject)
{
  const Fixture        &f = drawn.shape.fixture;
  const Coupon         &c = drawn.shape.coupon;
  std::vector<TableRow> rows;
  const auto add = [&](bool shown, const char *letter, const char *what, double value)
  {
    if (shown)
      rows.push_back({letter, what, value});
  };
  add(true, "A", "plunger width", f.plunger.width);
  add(true, "B", "nose radius", f.plunger.nose_radius);
  add(true, "C", "opening", f.shoulders.opening);
  add(subject.die_bottom_radius > 0, "D", "die bottom radius", subject.die_bottom_radius);
  add(drawn.radius_known, "E", drawn.rollers() ? "roller radius" : "shoulder radius",
      f.shoulders.radius);
  add(!drawn.rollers() && drawn.depth_known, "F", "shoulder depth", f.shoulders.depth);
  add(!drawn.rollers() && drawn.depth_known && f.shoulders.bottom_radius > 0, "G",
      "wall end radius", f.shoulders.bottom_radius);
  add(f.frame.present(), "H", "centre to frame", f.frame.distance);
  add(f.frame.present(), "J", "frame plate", f.frame.plate_thickness);
  add(f.frame.present(), "K", "gap above coupon", f.frame.clearance_above);
  add(f.frame.present(), "M", "gap below coupon", f.frame.clearance_below);
  add(f.frame.present() && f.frame.edge_radius > 0, "N", "frame edge radius",
      f.frame.edge_radius);
  add(true, "P", "pinch, (C - A)/2", drawn.pinch());
  add(true, "S", "clearance per side", drawn.clearance());
  add(true, "t", "coupon thickness", c.thickness);
  add(drawn.length_known, "L", "coupon length", c.length);
  add(drawn.width_known, "W", "coupon width", c.width);
  return rows;
}

/// In both units, line by line; returns its height [mm].
double draw_table(Sheet &sheet, const PlaneVector at, const std::vector<TableRow> &rows,
                  const UnitSystem units)
{
  const double step = 3.95;
  double       y    = at.y + 3.2;
  for (const TableRow &row : rows)
  {
    sheet.text({at.x + 1, y}, Anchor::left, row.letter);
    sheet.text({at.x + 6, y}, Anchor::left, row.what);
    const std::string mm = millimetre_text(row.value), in = inch_text(row.value);
    const bool        us = units == UnitSystem::us;
    sheet.text({at.x + 70, y}, Anchor::right, us ? in : mm);
    sheet.text({at.x + right_column - 2, y}, Anchor::right, us ? mm : in);
    y += step;
  }
  return step * static_cast<double>(rows.size()) + 1;
}

std::vector<std::string> note_paragraphs(const DrawnFixture   &drawn,
                                         const DrawingSubject &subject)
{
  const auto length_words = [&](const double value)
  { return both_text(value, drawn.units); };
  std::vector<std::string> notes;
  if (!subject.rule.empty())
    notes.push_back("Rule: " + subject.rule);
  for (const SizeLimits &limits : subject.limits)
    if (const std::string words = limits_words(limits, drawn.units); !words.empty())
      notes.push_back(words);
  if (subject.limits.empty())
    notes.push_back("No tolerances are known here; the rule's text or the shop sets them.");
  std::string guessed;
  const auto  add_guess = [&](bool known, const char *what)
  {
    if (!known)
      guessed += (guessed.empty() ? "" : ", ") + std::string(what);
  };
  add_guess(drawn.radius_known, "shoulder radius");
  add_guess(drawn.depth_known, "shoulder depth");
  add_guess(drawn.length_known, "coupon length");
  if (!guessed.empty())
    notes.push_back("Not given, drawn as a likely size without dimension: " + guessed +
                    ".");
  notes.push_back("Printed at 100 %, the border is " +
                  length_words(paper_for(subject.units).frame().width()) + " wide.");
  notes.push_back("Not to be measured off: outer faces of the shoulders, lengths of "
                  "plunger and frame.");
  if (subject.die_bottom_radius > 0)
    notes.push_back("D belongs to a jig that is closed below; the open one is drawn.");
  if (drawn.shape.coupon.offset != 0)
    notes.push_back("The coupon lies " + length_words(std::abs(drawn.shape.coupon.offset)) +
                    (drawn.shape.coupon.offset > 0 ? " right" : " left") +
                    " of the plunger's centre.");
  if (drawn.width_known && subject.tool_width > 0)
    notes.push_back("Across, the tools are " + length_words(subject.tool_width) +
                    (subject.tool_width > drawn.shape.coupon.width
                         ? " wide, the coupon "
                         : " wide: TOO NARROW for the coupon of ") +
                    length_words(drawn.shape.coupon.width) + ".");
  else if (drawn.width_known)
    notes.push_back("Across, plunger and shoulders must be wider than the coupon, " +
                    length_words(drawn.shape.coupon.width) +
                    " (common practice, no source).");
  for (const std::string &caution : subject.cautions)
    notes.push_back(caution);
  return notes;
}

/// At the bottom left; returns where the notes begin [mm].
double draw_notes(Sheet &sheet, const std::vector<std::string> &paragraphs,
                  const Box &frame)
{
  const double             width = frame.width() - right_column - 6;
  std::vector<std::string> lines;
  for (const std::string &paragraph : paragraphs)
    for (const std::string &line : lines_within(paragraph, width))
      lines.push_back(line);
  const auto most = static_cast<std::size_t>(most_notes / line_step);
  if (lines.size() > most)
  {
    lines.resize(most - 1);
    lines.push_back("... and more: the rule's text says it all. Read it.");
  }
  const double top = frame.high.y - 3 - line_step * static_cast<double>(lines.size());
  double       y   = top + 3.4;
  for (const std::string &line : lines)
  {
    sheet.text({frame.low.x + 3, y}, Anchor::left, line);
    y += line_step;
  }
  return top;
}

} // namespace

FixtureSheet fixture_sheet(const DrawingSubject &subject)
{
  const DrawnFixture drawn = drawn_fixture(subject);
  const Paper       &paper = paper_for(subject.units);
  const Box          frame = paper.frame();
  FixtureSheet       on;
  on.width  = paper.width;
  on.height = paper.height;
  on.sheet.rectangle(frame, Pen::outline);
  const double notes = draw_notes(on.sheet, note_paragraphs(drawn, subject), frame);

  const double split = frame.high.x - right_column;
  const Box    left  = {{frame.low.x + 2, frame.low.y + 3}, {split - 2, notes - 2}};
  const auto main = largest_within(left, [&](double s) { return section_view(drawn, s); });
  on.scale        = main.first.factor;
  on.origin       = place_in(left, main.second, on);

  // The right column from below: title block, table, what decides, the leg.
  std::string                 scale_words = main.first.name;
  const std::vector<TableRow> rows        = table_rows(drawn, subject);
  Sheet                       table;
  const double                table_height = draw_table(table, {0, 0}, rows, subject.units);
  const double                table_top    = frame.high.y - title_height - table_height;
  on.sheet.place(table, {split, table_top});
  std::vector<std::string> words;
  for (const std::string &paragraph : clearance_words(drawn))
    for (const std::string &line : lines_within(paragraph, right_column - 4))
      words.push_back(line);
  double       y         = table_top - 2 - line_step * static_cast<double>(words.size());
  const double words_top = y;
  for (const std::string &line : words)
  {
    y += line_step;
    on.sheet.text({split + 1, y - 1}, Anchor::left, line);
  }
  if (drawn.pinch() > 0)
  {
    const Box  room = {{split + 1, frame.low.y + 7.5}, {frame.high.x - 1, words_top - 1.5}};
    const auto detail = largest_within(room, [&](double s) { return leg_view(drawn, s); });
    on.detail_scale   = detail.first.factor;
    place_in(room, detail.second, on, Layer::detail);
    on.sheet.use(Layer::detail);
    on.sheet.text({split + 1, frame.low.y + 4.5}, Anchor::left,
                  std::string("Right leg, plunger further down, ") + detail.first.name);
    scale_words += std::string(", detail ") + detail.first.name;
  }
  const Box block = {{split, frame.high.y - title_height}, frame.high};
  draw(on.sheet, block,
       {subject.title, subject.rule_used, paper.name, scale_words, on.scale, subject.units,
        subject.program, subject.date});
  return on;
}

std::string fixture_drawing(const DrawingSubject &subject)
{
  const FixtureSheet on = fixture_sheet(subject);
  return on.sheet.svg(subject.title, on.width, on.height);
}

std::string fixture_cad_file(const DrawingSubject &subject)
{
  FixtureSheet on = fixture_sheet(subject);
  const bool   us = subject.units == UnitSystem::us;
  on.sheet.use(Layer::sheet);
  double y = on.height - border + 5;
  for (const std::string &line :
       {std::string(
            "CAD file: section and coupon from above in their own size, 1 unit = ") +
            (us ? "1 inch" : "1 mm") + ". " +
            fmt::format("Layer DETAIL is enlarged {:.3g} times: take no size from it.",
                        on.detail_scale / on.scale),
        std::string(
            "Edges: PLUNGER, SHOULDERS, FRAME, COUPON, COUPON_PLAN. BREAKS is where "
            "a view ends, not the part.")})
  {
    on.sheet.text({border, y}, Anchor::left, line);
    y += line_step;
  }
  return dxf(on.sheet, {on.origin, on.scale, subject.units}, drawing_mark);
}

std::string fixture_profile_file(const DrawingSubject &subject)
{
  const DrawnFixture     drawn = drawn_fixture(subject);
  std::vector<RigidTool> tools = pass_tools(drawn.shape, Extent::full);
  for (RigidTool &tool : tools)
    if (tool.place.duty == ToolDuty::push)
      tool.drawn_up = 2 * drawn.shape.fixture.plunger.width;
  return tool_file_text(tools, 0, 0);
}
} // namespace throughbend
