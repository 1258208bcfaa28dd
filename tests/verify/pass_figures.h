#pragma once
// One pass run for its record, and the figures that checks read off it. No reference values
// here.

#include "meshes/setup/fixture_profiles.h"
#include "solver/pass/pass_simulation.h"
#include "solver/setup/set_up.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace throughbend
{
struct PassRecord
{
  Case                    c;
  Finding                 finding;
  Release                 release;
  PassCounts              counts;
  unsigned                dofs = 0;
  std::vector<PassSample> samples; ///< without the release
};

/// Runs a simulation that others may have attached themselves to.
inline PassRecord record_of(const Case &c, PassSimulation<2> &simulation)
{
  PassRecord run;
  run.c       = c;
  run.finding = simulation.run();
  run.release = simulation.release();
  run.counts  = simulation.counts();
  run.dofs    = simulation.model().n_dofs();
  for (const PassSample &sample : simulation.samples())
    if (sample.kind != StepKind::release)
      run.samples.push_back(sample);
  return run;
}

inline PassRecord push(const Case &c)
{
  PassSimulation<2> simulation(set_up(c), MPI_COMM_WORLD);
  return record_of(c, simulation);
}

/// A quantity at a travel, linearly between steps; NaN where there is none.
template <typename Quantity>
double at(const PassRecord &run, double travel, Quantity quantity)
{
  for (std::size_t i = 1; i < run.samples.size(); ++i)
  {
    const PassSample &a = run.samples[i - 1], &b = run.samples[i];
    if (b.travel >= travel && b.travel > a.travel)
      return quantity(a) +
             (travel - a.travel) / (b.travel - a.travel) * (quantity(b) - quantity(a));
  }
  return std::nan("");
}

/// [N/mm]
inline double force_at(const PassRecord &run, double travel)
{
  return at(run, travel, [](const PassSample &s) { return s.ram_force; }) /
         run.c.coupon.width;
}

/// A quantity when the right leg first stands at an angle [deg], linearly between steps;
/// NaN where there is none.
template <typename Quantity>
double at_angle(const PassRecord &run, double degrees, Quantity quantity)
{
  for (std::size_t i = 1; i < run.samples.size(); ++i)
  {
    const PassSample &a = run.samples[i - 1], &b = run.samples[i];
    if (b.right.angle >= degrees && b.right.angle > a.right.angle)
      return quantity(a) + (degrees - a.right.angle) / (b.right.angle - a.right.angle) *
                               (quantity(b) - quantity(a));
  }
  return std::nan("");
}

struct Peak
{
  double force = 0, travel = 0; ///< [N/mm], [mm]
};

/// Top of the parabola through the highest sample and its neighbours.
inline Peak peak(const PassRecord &run)
{
  std::size_t top = 1;
  for (std::size_t i = 1; i + 1 < run.samples.size(); ++i)
    if (run.samples[i].ram_force > run.samples[top].ram_force)
      top = i;
  const auto  &a = run.samples[top - 1], &b = run.samples[top], &c = run.samples[top + 1];
  const double left  = (b.ram_force - a.ram_force) / (b.travel - a.travel),
               right = (c.ram_force - b.ram_force) / (c.travel - b.travel);
  const double bend  = (right - left) / (c.travel - a.travel);
  if (bend >= 0)
    return {b.ram_force / run.c.coupon.width, b.travel};
  const double travel = (a.travel + b.travel) / 2 - left / (2 * bend);
  const double force  = a.ram_force + left * (travel - a.travel) +
                       bend * (travel - a.travel) * (travel - b.travel);
  return {force / run.c.coupon.width, travel};
}

/// Travel when the leg tip has come `below` [mm] under the lower end of the shoulder's arc.
inline double travel_of_tip(const PassRecord &run, double below)
{
  const double level = arc_end_level(run.c.fixture.shoulders) - below;
  for (std::size_t i = 1; i < run.samples.size(); ++i)
  {
    const PassSample &a = run.samples[i - 1], &b = run.samples[i];
    if (b.right.tip_y < level)
      return a.travel + (b.travel - a.travel) * (a.right.tip_y - level) /
                            (a.right.tip_y - b.right.tip_y);
  }
  return std::nan("");
}

/// Largest log strain of the convex face along the whole pass [-].
inline double largest_outer_strain(const PassRecord &run)
{
  double largest = 0;
  for (const PassSample &sample : run.samples)
    largest = std::max(largest, sample.outer_strain);
  return largest;
}

/// Largest energy error of any step [-].
inline double largest_energy_error(const PassRecord &run)
{
  double largest = 0;
  for (const PassSample &sample : run.samples)
    largest = std::max(largest, sample.energy.error);
  return largest;
}
} // namespace throughbend
