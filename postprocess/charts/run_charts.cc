#include "postprocess/charts/run_charts.h"

#include "inputs/text/input_error.h"
#include "inputs/text/run_file.h"
#include "inputs/units/nominal_strain.h"
#include "meshes/coupon/face_zones.h"
#include "postprocess/runs/run_events.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
using Points = std::vector<std::pair<double, double>>;

Points points_of(const RunRecord &run, const std::string &head, const double x_factor,
                 const double y_factor)
{
  const std::vector<double> way = run.column("travel [mm]"), values = run.column(head);
  Points                    points;
  for (std::size_t i = 0; i < std::min(way.size(), values.size()); ++i)
    points.emplace_back(way[i] * x_factor, values[i] * y_factor);
  return points;
}

ChartAxis axis(const std::string &quantity, const ReaderUnits::Scale &scale)
{
  return {quantity + " [" + scale.unit + "]", quantity + " [" + scale.other_unit + "]",
          scale.other_factor, 0, 1};
}

/// Axes that hold all lines, and these values as well.
void hold_lines(Chart &chart, std::vector<double> x = {}, std::vector<double> y = {})
{
  for (const ChartLine &line : chart.lines)
    for (const auto &[px, py] : line.points)
    {
      x.push_back(px);
      y.push_back(py);
    }
  hold(chart.x, x);
  hold(chart.y, y);
}

std::string outcome_words(const RunRecord &run)
{
  const std::string outcome = run.word("finding.outcome");
  return outcome.empty() ? "last step kept" : outcome;
}

/// A chart of this run with the travel along x.
Chart over_travel(const RunRecord &run, const ReaderUnits &units, const std::string &title)
{
  Chart chart;
  chart.title = run.title() + ": " + title;
  chart.x     = axis("travel", units.length_scale());
  return chart;
}

bool same(const Points &a, const Points &b)
{
  return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(),
                                            [](const auto &p, const auto &q) {
                                              return std::abs(p.second - q.second) <
                                                     1e-9 * (1 + std::abs(p.second));
                                            });
}

/// The chart with its axes set, or none if it has no line to show.
std::optional<Chart> if_any(Chart chart)
{
  const auto is_empty = [](const ChartLine &line) { return line.points.empty(); };
  chart.lines.erase(std::remove_if(chart.lines.begin(), chart.lines.end(), is_empty),
                    chart.lines.end());
  if (chart.lines.empty())
    return {};
  hold_lines(chart);
  return chart;
}

/// A column that each side has, as one line where both sides are alike.
void add_sides(Chart &chart, const RunRecord &run, const std::string &head,
               const std::string &label, const double x_factor, const double y_factor)
{
  const Points left  = points_of(run, "left " + head, x_factor, y_factor);
  const Points right = points_of(run, "right " + head, x_factor, y_factor);
  if (same(left, right))
    chart.lines.push_back({label + ", both sides alike", left});
  else
  {
    chart.lines.push_back({"left " + label, left});
    chart.lines.push_back({"right " + label, right});
  }
}

/// Narrows the x axis to where there is strain: the legs stay flat.
void show_the_bend(Chart &chart)
{
  double largest = 0, reach = 0;
  for (const ChartLine &line : chart.lines)
    for (const auto &[x, y] : line.points)
      largest = std::max(largest, std::abs(y));
  for (const ChartLine &line : chart.lines)
    for (const auto &[x, y] : line.points)
      if (std::abs(y) > 0.06 * largest)
        reach = std::max(reach, std::abs(x));
  if (reach > 0)
  {
    chart.x.low  = -1.15 * reach;
    chart.x.high = 1.15 * reach;
  }
}

/// Where weld and HAZ meet the convex face, of a weld that crosses the coupon.
void add_bands(Chart &chart, const Case &given, const double factor)
{
  const std::vector<FaceStretch> stretches = face_stretches(given);
  if (!weld_middle(stretches))
    return;
  for (const FaceStretch &s : stretches)
    if (s.zone != FaceZone::left_base && s.zone != FaceZone::right_base)
      chart.bands.push_back(
          {s.zone == FaceZone::weld ? "weld" : "HAZ", s.from * factor, s.to * factor});
}

/// What surface.csv has of the convex face: all there is of a run that kept no shapes.
void add_recorded_faces(Chart &chart, const RunRecord &run, const ReaderUnits &units)
{
  const auto text = run_file_text(run.folder, "surface.csv", run_file_size::table);
  try
  {
    const CsvTable            table  = CsvTable::of_text(text.value_or(""), "surface.csv");
    const auto                moment = table.words("moment"), face = table.words("face");
    const std::vector<double> travel   = table.numbers("travel [mm]"),
                              position = table.numbers("position [mm]"),
                              strain   = table.numbers("axial strain [-]");
    std::string last;
    for (std::size_t i = 0; i < table.rows(); ++i)
    {
      if (face[i] != "convex")
        continue;
      if (moment[i] != last || chart.lines.empty())
        chart.lines.push_back({"travel " + units.length(travel[i]), {}});
      last = moment[i];
      chart.lines.back().points.emplace_back(position[i] * units.length_scale().factor,
                                             strain[i]);
    }
  }
  catch (const InputError &)
  {
    chart.lines.clear(); // without the file there is no such chart; the report says so
  }
}

/// The pass beyond the ram's capacity, from where the ram stops; empty where it was not
/// followed, or its file is gone.
Points beyond_points(const RunRecord &run, const double x_factor, const double y_factor)
{
  Points     points;
  const auto text = run_file_text(run.folder, "beyond.csv", run_file_size::table);
  try
  {
    const CsvTable            table = CsvTable::of_text(text.value_or(""), "beyond.csv");
    const std::vector<double> way   = table.numbers("travel [mm]"),
                              force = table.numbers("ram force [N]");
    for (std::size_t i = 0; i < table.rows(); ++i)
      points.emplace_back(way[i] * x_factor, force[i] * y_factor);
  }
  catch (const InputError &)
  {
    points.clear();
  }
  return points;
}

/// Draws on what a stronger ram would do, with the force it takes. A pass that needs many
/// times the capacity is cut off: the curve up to the capacity is to stay readable.
void add_beyond(Chart &chart, const RunRecord &run, const Points &before,
                const ReaderUnits &units)
{
  const auto   beyond = run_beyond(run);
  const double factor = units.force_scale().factor;
  Points       points = beyond_points(run, units.length_scale().factor, factor);
  if (!beyond || points.empty() || before.empty())
    return;
  constexpr double farthest = 3; // times the peak up to the capacity
  const double     top      = farthest * run.peak_force() * factor;
  const auto       high     = std::find_if(points.begin(), points.end(),
                                           [&](const auto &point) { return point.second > top; });
  const bool       cut      = high != points.end();
  points.erase(high, points.end());
  points.insert(points.begin(), before.back());
  chart.lines.front().label = "this ram";
  chart.lines.push_back({cut ? "beyond this ram, continues above" : "beyond this ram",
                         points, LineLook::continued});
  if (beyond->end == "through")
    chart.limits.push_back(
        {LimitOf::y, beyond->force * factor, "it takes " + units.force(beyond->force)});
}

void add_events(Chart &chart, const RunRecord &run, const double factor)
{
  for (const RunEvent &event : run_events(run))
    chart.stretches.push_back({event.name(), event.from * factor, event.to * factor});
}
} // namespace

std::optional<Chart> force_chart(const RunRecord &run, const ReaderUnits &units)
{
  const ReaderUnits::Scale way = units.length_scale(), force = units.force_scale();
  const Points points = points_of(run, "ram force [N]", way.factor, force.factor);
  if (points.empty())
    return {};
  Chart chart  = over_travel(run, units, "ram force along the travel");
  chart.y      = axis("ram force", force);
  chart.follow = Follow::slider;
  chart.lines.push_back({"", points});
  add_beyond(chart, run, points, units);
  add_events(chart, run, way.factor);

  const double        peak = run.peak_force() * force.factor, at = run.peak_force_travel();
  std::vector<double> x, y;
  if (run.known_case)
  {
    const double     capacity = run.known_case->ram.capacity;
    constexpr double farthest = 3; // times the peak: beyond, the curve would lie flat
    if (capacity * force.factor < farthest * peak)
      y = {peak, capacity * force.factor};
    chart.limits.push_back(
        {LimitOf::y, capacity * force.factor, "ram capacity " + units.force(capacity)});
    const double stroke = run.known_case->ram.stroke;
    if (stroke < 1.5 * run.last_travel())
      x = {stroke * way.factor};
    chart.limits.push_back(
        {LimitOf::x, stroke * way.factor, "stroke " + length_text(stroke, units.first())});
  }
  hold_lines(chart, x, y);

  const std::string largest = "peak " + force_text(run.peak_force(), units.first());
  if (at * way.factor > points.back().first - 1e-6) // both marks are one
    chart.marks.push_back(
        {points.back().first, points.back().second, outcome_words(run) + ", " + largest});
  else
  {
    chart.marks.push_back({at * way.factor, peak, largest});
    chart.marks.push_back({points.back().first, points.back().second, outcome_words(run)});
  }
  return chart;
}

std::optional<Chart> face_strain_chart(const RunRecord &run, const PassShapes &shapes,
                                       const ReaderUnits &units)
{

  const ReaderUnits::Scale along = units.length_scale();
  const double             peak  = run.peak_force_travel();
  const double             end   = run.last_travel();
  std::vector<std::size_t> chosen;
  // While the hinge forms, at the peak and at the end; afterwards little changes.
  const double way = std::isfinite(peak) && peak > 0 ? peak : end / 2;
  for (const double travel : {way / 4, way / 2, 0.75 * way, way, end})
    if (shapes.empty())
      break;
    else if (const std::size_t shape = shapes.nearest(travel);
             std::find(chosen.begin(), chosen.end(), shape) == chosen.end())
      chosen.push_back(shape);

  Chart chart;
  chart.title = run.title() + ": strain along the convex face";
  chart.x     = axis("from the coupon's centre, flat", along);
  chart.y     = {"strain, logarithmic [-]", "", 1, 0, 1};
  const double centre =
      run.known_case ? run.known_case->coupon.offset : 0; // positions count from it
  for (const std::size_t i : chosen)
  {
    const Shape &shape = shapes.shapes[i];
    Points       points;
    for (const FacePoint &p : convex_face(shapes, shape))
      points.emplace_back((p.position - centre) * along.factor, p.strain);
    chart.lines.push_back({"travel " + units.length(shape.travel), points});
  }
  if (shapes.empty())
    add_recorded_faces(chart, run, units);
  if (chart.lines.empty())
    return {};
  hold_lines(chart);
  show_the_bend(chart);
  if (run.known_case)
  {
    const Case  &given = *run.known_case;
    const double nominal =
        nominal_strain(given.fixture.plunger.bend_diameter(), given.coupon.thickness);
    chart.limits.push_back({LimitOf::y, std::log1p(nominal),
                            "nominal " + percent_text(nominal) + " elongation"});
    hold(chart.y, {chart.y.low, chart.y.high, std::log1p(nominal)});
    add_bands(chart, given, along.factor);
  }
  return chart;
}

std::optional<Chart> nose_gap_chart(const RunRecord &run, const ReaderUnits &units)
{
  const ReaderUnits::Scale way   = units.length_scale();
  const bool               wide  = run.known_case && run.known_case->mesh.dimension == 3;
  Chart                    chart = over_travel(run, units,
                                               std::string("largest gap under the nose") +
                                                   (wide ? ", curled edges counted" : ""));
  chart.y                        = axis("gap under the nose", way);
  chart.lines.push_back({"", points_of(run, "nose gap [mm]", way.factor, way.factor)});
  return if_any(chart);
}

std::optional<Chart> wrap_chart(const RunRecord &run, const ReaderUnits &units)
{
  const double way   = units.length_scale().factor;
  Chart        chart = over_travel(run, units, "wrap and leg angles");
  chart.y            = {"angle [deg]", "", 1, 0, 1};
  chart.lines.push_back({"wrap: touches the nose", points_of(run, "wrap [deg]", way, 1)});
  add_sides(chart, run, "leg angle [deg]", "leg angle", way, 1);
  return if_any(chart);
}

std::optional<Chart> pressure_chart(const RunRecord &run, const ReaderUnits &units)
{
  const ReaderUnits::Scale way = units.length_scale(), stress = units.stress_scale();
  Chart chart = over_travel(run, units, "contact pressure, mean over t/4");
  chart.y     = axis("contact pressure", stress);
  add_sides(chart, run, "shoulder smoothed pressure [MPa]", "shoulder", way.factor,
            stress.factor);
  chart.lines.push_back({"plunger", points_of(run, "plunger smoothed pressure [MPa]",
                                              way.factor, stress.factor)});
  return if_any(chart);
}

std::optional<Chart> force_comparison(const std::vector<RunRecord> &runs,
                                      const ReaderUnits            &units)
{
  const ReaderUnits::Scale way = units.length_scale(), force = units.force_scale();
  Chart                    chart;
  chart.title = "Ram force of all runs along the travel";
  chart.x     = axis("travel", way);
  chart.y     = axis("ram force", force);
  for (const RunRecord &run : runs)
    chart.lines.push_back(
        {run.name, points_of(run, "ram force [N]", way.factor, force.factor)});
  return if_any(chart);
}

std::optional<Chart> strain_comparison(const std::vector<RunRecord> &runs,
                                       const ReaderUnits            &units)
{
  const ReaderUnits::Scale way = units.length_scale();
  Chart                    chart;
  chart.title = "Largest strain of the convex face of all runs along the travel";
  chart.x     = axis("travel", way);
  chart.y     = {"strain, logarithmic [-]", "", 1, 0, 1};
  for (const RunRecord &run : runs)
    chart.lines.push_back({run.name, points_of(run, "outer strain [-]", way.factor, 1)});
  return if_any(chart);
}
} // namespace throughbend
