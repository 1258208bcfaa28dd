#include "solver/study/bar_cases.h"

#include "solver/setup/set_up.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double friction_spread = 0.03; // [-], grease by the day (common practice)
constexpr double flow_spread =
    0.10; // [-], plate against its certificate (tests/verify/README.md)

Case with_other_mesh(Case c)
{
  MeshSettings &mesh = c.mesh;
  if (mesh.layers > 0)
    mesh.layers = static_cast<int>(std::ceil(1.5 * mesh.layers));
  if (mesh.cell_size > 0)
    mesh.cell_size /= 1.5;
  mesh.level = mesh.level == MeshLevel::standard ? MeshLevel::fine : MeshLevel::standard;
  return c;
}

Case with_friction(Case c, const double change)
{
  for (double *coefficient :
       {&c.friction.plunger, &c.friction.shoulders, &c.friction.frame})
    *coefficient = std::max(0., *coefficient + change);
  if (double &left = c.friction.other_left_shoulder; left >= 0)
    left = std::max(0., left + change);
  return c;
}

Case with_flow(Case c, const double factor)
{
  c.material.flow = c.material.flow.scaled(factor);
  c.material.kinematic.saturation *= factor; // its share of the curve stays
  for (ZoneFlow *zone : {&c.weld.metal_flow, &c.weld.haz_flow})
    if (zone->own)
      zone->curve = zone->curve.scaled(factor);
  return c;
}
} // namespace

std::vector<BarCase> bar_cases(const Case &c)
{
  constexpr auto numerics = BarPass::Kind::numerics, shop = BarPass::Kind::shop;
  const bool     is_fine   = c.mesh.level == MeshLevel::fine;
  Case           step      = c;
  step.solver.largest_step = step_lengths(c).largest / 2;
  Case contact             = c;
  contact.solver.penetration_tolerance /= 3;
  return {{{is_fine ? "coarser mesh" : "finer mesh", numerics}, with_other_mesh(c)},
          {{"half the step", numerics}, step},
          {{"a third of the penetration", numerics}, contact},
          {{"friction +0.03", shop}, with_friction(c, friction_spread)},
          {{"friction -0.03", shop}, with_friction(c, -friction_spread)},
          {{"flow stress +10 %", shop}, with_flow(c, 1 + flow_spread)},
          {{"flow stress -10 %", shop}, with_flow(c, 1 - flow_spread)}};
}

BarFigures bar_figures(const StudyPass &pass)
{
  const auto figure = [&](const char *name, const double otherwise)
  {
    const auto found = pass.figures.find(name);
    return found == pass.figures.end() ? otherwise : found->second;
  };
  return {
      pass.outcome,
      figure("finding.beyond_capacity.force_it_takes_N", figure("peak_ram_force_N", NAN)),
      figure("finding.beyond_capacity.peak_outer_strain_log",
             figure("peak_face_strain_log", NAN))};
}

ErrorBars error_bars(const BarFigures &own, const std::vector<BarCase> &cases,
                     PassCrew &crew, const std::function<bool()> &asked_to_stop)
{
  ErrorBars bars;
  bars.own = own;
  for (const BarCase &one : cases)
    bars.passes.push_back(one.pass);
  std::size_t next = 0, done = 0;
  bool        stopped = false;
  while (done < next || (!stopped && next < cases.size()))
  {
    while (!stopped && next < cases.size() && crew.free() > 0)
    {
      crew.begin(next, cases[next].changed);
      ++next;
    }
    if (!stopped && asked_to_stop())
    {
      crew.stop();
      stopped = true;
    }
    if (const std::optional<PassDone> result = crew.next_done(0.1))
    {
      ++done;
      if (result->pass)
        bars.passes[result->task].figures = bar_figures(*result->pass);
    }
  }
  return bars;
}
} // namespace throughbend
