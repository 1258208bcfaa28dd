#include "postprocess/charts/flow_chart.h"

#include "inputs/case/zone_flow.h"
#include "inputs/text/input_error.h"
#include "inputs/text/run_file.h"
#include "postprocess/shapes/face_point.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// On the way to the peak force, while the face is stretched most quickly, and the end.
std::vector<double> given_travels(const RunRecord &run)
{
  const double peak = run.peak_force_travel(), end = run.last_travel();
  const double way = std::isfinite(peak) && peak > 0 ? peak : end / 2;
  return {way / 8, way / 4, way / 2, end};
}

/// Zone numbers met near the middle; none if they are several, or none that there is.
class MetZones
{
public:
  void add(const double zone)
  {
    if (zone != 0 && zone != 1 && zone != 2)
      mixed_ = true;
    else if (!zone_)
      zone_ = static_cast<int>(zone);
    else
      mixed_ = mixed_ || *zone_ != static_cast<int>(zone);
  }
  std::optional<int> single() const { return mixed_ ? std::nullopt : zone_; }

private:
  std::optional<int> zone_;
  bool               mixed_ = false;
};

/// How near a border of zones strength still passes from one to the other [mm]; a flank
/// that leans makes the way along the face longer.
double mixed_reach(const Case &given)
{
  return given.weld.present() ? 1.5 * given.weld.transition : 0;
}

/// The zone about a point of a face.
std::optional<int> zone_about(const PassShapes &shapes, const std::size_t point,
                              const double reach)
{
  MetZones zones;
  for (std::size_t i = 0; i < shapes.flat.size(); ++i)
    if (std::abs(shapes.flat[i].y - shapes.flat[point].y) < 1e-3 &&
        std::abs(shapes.flat[i].x - shapes.flat[point].x) <= reach + 1e-6)
      zones.add(shapes.zone[i]);
  return zones.single();
}

std::vector<MiddleState> states_of_shapes(const RunRecord &run, const PassShapes &shapes)
{
  const double             thickness = run.known_case->coupon.thickness;
  const auto               crown     = face_point(shapes, thickness, LongFace::convex, 0);
  const auto               concave   = face_point(shapes, thickness, LongFace::concave, 0);
  std::vector<MiddleState> states;
  if (!crown || !concave)
    return states;
  const double reach = mixed_reach(*run.known_case);
  for (const double travel : given_travels(run))
  {
    const Shape &shape = shapes.shapes[shapes.nearest(travel)];
    if (shape.hold == Loading::released ||
        !(shape.plastic_strain[*crown] > 0) || // nothing has yielded yet
        std::any_of(states.begin(), states.end(),
                    [&](const MiddleState &s) { return s.travel == shape.travel; }))
      continue;
    states.push_back({shape.travel, zone_about(shapes, *crown, reach),
                      zone_about(shapes, *concave, reach), shape.plastic_strain[*crown],
                      shape.plastic_strain[*concave]});
  }
  return states;
}

/// surface.csv has both faces at the peak and at the end.
std::vector<MiddleState> states_of_table(const RunRecord &run)
{
  std::vector<MiddleState> states;
  const auto text = run_file_text(run.folder, "surface.csv", run_file_size::table);
  try
  {
    const CsvTable table  = CsvTable::of_text(text.value_or(""), "surface.csv");
    const auto     moment = table.words("moment"), face = table.words("face");
    const auto     travel   = table.numbers("travel [mm]");
    const auto     position = table.numbers("position [mm]");
    const auto     strain   = table.numbers("plastic strain [-]");
    const auto     zone     = table.numbers("zone [0 base; 1 HAZ; 2 weld]");
    const auto     nearest  = [&](const std::string &at, const std::string &of)
    {
      std::optional<std::size_t> best;
      const auto                 distance = [&](std::size_t i)
      { return std::abs(position[i] + run.known_case->coupon.offset); };
      for (std::size_t i = 0; i < table.rows(); ++i)
        if (moment[i] == at && face[i] == of && (!best || distance(i) < distance(*best)))
          best = i;
      return best;
    };
    const auto zone_near = [&](const std::string &at, const std::string &of)
    {
      MetZones zones;
      for (std::size_t i = 0; i < table.rows(); ++i)
        if (moment[i] == at && face[i] == of &&
            std::abs(position[i] - position[*nearest(at, of)]) <=
                mixed_reach(*run.known_case) + 1e-6)
          zones.add(zone[i]);
      return zones.single();
    };
    for (const char *at : {"peak", "end"})
    {
      const auto crown = nearest(at, "convex"), concave = nearest(at, "concave");
      if (crown && concave && (states.empty() || states.back().travel != travel[*crown]))
        states.push_back({travel[*crown], zone_near(at, "convex"), zone_near(at, "concave"),
                          strain[*crown], strain[*concave]});
    }
  }
  catch (const InputError &)
  {
    states.clear();
  }
  return states;
}

std::optional<double> stress_at(const Case &given, const std::optional<int> zone,
                                const double strain)
{
  constexpr double most = 5; // no bend has more, and a spoiled file may say anything
  if (!zone || !(strain >= 0 && strain <= most))
    return {};
  std::optional<double> stress;
  int                   found = 0;
  for (const ZoneCurve &curve : zone_curves(given))
    if (curve.zone == *zone)
    {
      ++found;
      stress = curve.curve.stress(strain);
    }
  return found == 1 ? stress : std::nullopt;
}
} // namespace

std::vector<MiddleState> middle_states(const RunRecord &run, const PassShapes &shapes)
{
  if (!run.known_case)
    return {};
  return shapes.empty() ? states_of_table(run) : states_of_shapes(run, shapes);
}

std::optional<double> crown_flow_stress(const Case &given, const MiddleState &state)
{
  return stress_at(given, state.crown_zone, state.crown_strain);
}

std::optional<double> concave_flow_stress(const Case &given, const MiddleState &state)
{
  return stress_at(given, state.concave_zone, state.concave_strain);
}

std::optional<Chart> flow_chart(const RunRecord &run, const PassShapes &shapes,
                                const ReaderUnits &units)
{
  if (!run.known_case)
    return {};
  const ReaderUnits::Scale       stress = units.stress_scale();
  const std::vector<MiddleState> states = middle_states(run, shapes);
  double                         reach  = 0.05; // so that a run without strain has a curve
  for (const MiddleState &s : states)
  {
    if (crown_flow_stress(*run.known_case, s))
      reach = std::max(reach, s.crown_strain);
    if (concave_flow_stress(*run.known_case, s))
      reach = std::max(reach, s.concave_strain);
  }
  reach *= 1.15;

  Chart chart;
  chart.title = run.title() + ": flow curves, and the middle of the bend on them";
  chart.x     = {"equivalent plastic strain [-], left of 0: pressed together", "", 1, 0, 1};
  chart.y = {"flow stress [" + stress.unit + "]", "flow stress [" + stress.other_unit + "]",
             stress.other_factor, 0, 1};
  std::vector<double> y;
  for (const ZoneCurve &zone : zone_curves(*run.known_case))
  {
    constexpr int steps = 100; // on each side, dense where the curve bends
    ChartLine     line{zone.label, {}};
    for (const int side : {-1, 1})
      for (int i = 0; i <= steps; ++i)
      {
        const int    k = side < 0 ? steps - i : i;
        const double p = reach * k * k / (steps * steps);
        line.points.emplace_back(side * p, side * zone.curve.stress(p) * stress.factor);
        y.push_back(line.points.back().second);
      }
    chart.lines.push_back(line);
    if (zone.curve.last_strain < reach)
      for (const int side : {-1, 1})
        chart.limits.push_back({LimitOf::x, side * zone.curve.last_strain,
                                "tested up to here: " + zone.label});
  }
  const auto add_ring = [&](const double x, const double stress_there, const double travel)
  {
    // Rings that nearly cover each other share a label.
    std::string words = length_text(travel, units.first());
    for (ChartMark &mark : chart.marks)
      if (!mark.label.empty() && mark.x * x >= 0 && std::abs(mark.x - x) < 0.12 * reach)
      {
        mark.label += ", " + words;
        words.clear();
        break;
      }
    chart.marks.push_back({x, stress_there * stress.factor, words});
  };
  for (const MiddleState &s : states)
  {
    if (const auto crown = crown_flow_stress(*run.known_case, s))
      add_ring(s.crown_strain, *crown, s.travel);
    if (const auto concave = concave_flow_stress(*run.known_case, s))
      add_ring(-s.concave_strain, -*concave, s.travel);
  }
  const double most = *std::max_element(y.begin(), y.end());
  y.insert(y.end(), {1.25 * most, -1.25 * most}); // room for labels
  hold(chart.y, y);
  chart.x.low  = -reach;
  chart.x.high = reach;
  return chart;
}

std::string flow_caption()
{
  return "Flow curves of the metals. Rings, with the plunger's travel: right, the crown of "
         "the convex face, which is stretched; left, the concave face under the nose, "
         "which "
         "is pressed together. None where strength passes from zone to zone";
}
} // namespace throughbend
