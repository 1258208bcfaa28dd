// The part of ContactAssembly that adds up over the points: forces on the tools, energies,
// the deepest penetration.

#include "solver/fem/contact_assembly.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// Way of a point along an outline in a step [mm]. While it touches that is the way of its
/// foot, and where the outline turns by theta, gap theta more. A point that comes or goes
/// may have been far off, where its foot says little: of the straight way between its two
/// places the part along the outline where it touches.
double way_along(const RigidProfile &outline, const ContactState &old,
                 const ContactState &now)
{
  const PlaneVector from = old.normal, to = now.normal;
  const double      way = now.foot[0] - old.foot[0];
  const bool        on = now.pressure > 0, was_on = old.pressure > 0;
  if (on == was_on)
    return way + (old.gap + now.gap) / 2 *
                     std::atan2(from.x * to.y - from.y * to.x, dot(from, to));
  const PlaneVector begin  = outline.point_at(old.foot[0]) + old.gap * from,
                    end    = outline.point_at(now.foot[0]) + now.gap * to;
  const PlaneVector normal = on ? to : from;
  return dot(end - begin, {-normal.y, normal.x});
}
} // namespace

template <int dim>
std::vector<ToolForce> ContactAssembly<dim>::tool_forces() const
{
  std::vector<ToolForce>   sums(tool_list().size());
  std::vector<std::size_t> rows; // of each piece
  for (const ToolPiece &piece : pieces_)
    rows.push_back(tool_number(tool_of(piece).place));
  if (separated_)
    return sums;
  for (std::size_t f = 0; f < model_.faces().size(); ++f)
    for (std::size_t q = 0; q < n_points_; ++q)
      for (std::size_t k = 0; k < pieces_.size(); ++k)
      {
        // Of its own: a point that was not looked at has no pressure.
        const ContactState &state = latest_[(f * n_points_ + q) * pieces_.size() + k];
        if (state.pressure <= 0)
          continue;
        const double      area = model_.faces()[f].weight[q];
        ToolForce        &sum  = sums[rows[k]];
        const PlaneVector t    = {-state.normal.y, state.normal.x};
        sum.force_x += area * (state.pressure * state.normal.x + state.stress[0] * t.x);
        sum.force_y += area * (state.pressure * state.normal.y + state.stress[0] * t.y);
        sum.normal += area * state.pressure;
        sum.slipping += state.slipping ? area * state.pressure : 0.;
        sum.pressure = std::max(sum.pressure, state.pressure);
      }
  for (ToolForce &sum : sums)
  {
    sum.force_x  = model_.sum_over_ranks(sum.force_x);
    sum.force_y  = model_.sum_over_ranks(sum.force_y);
    sum.normal   = model_.sum_over_ranks(sum.normal);
    sum.slipping = model_.sum_over_ranks(sum.slipping);
    sum.pressure = model_.max_over_ranks(sum.pressure);
  }
  return sums;
}

template <int dim>
ContactEnergy ContactAssembly<dim>::energy() const
{
  ContactEnergy energy;
  if (separated_)
    return energy;
  settle();
  for (std::size_t f = 0; f < model_.faces().size(); ++f)
    for (std::size_t q = 0; q < n_points_; ++q)
      for (std::size_t k = 0; k < pieces_.size(); ++k)
      {
        const std::size_t   index = (f * n_points_ + q) * pieces_.size() + k;
        const ContactState &now = latest_[index], &old = accepted_[index];
        const double        area = model_.faces()[f].weight[q];
        const auto          held = [&](const ContactState &state)
        {
          return (state.stress[0] * state.stress[0] + state.stress[1] * state.stress[1]) /
                 (2 * stiffness_.tangential);
        };
        energy.springs +=
            area * (normal_response(now.gap, springs_of(f, k)).energy + held(now));
        if (now.gap > 1e29 || old.gap > 1e29)
          continue;
        // The spring's share of the slip is not lost but stored (or given back).
        const RigidProfile &outline = tool_of(pieces_[k]).outlines[pieces_[k].outline];
        const double slip[2] = {way_along(outline, old, now), now.foot[1] - old.foot[1]};
        double       work    = 0;
        for (int i = 0; i < 2; ++i)
          work -= (now.stress[i] + old.stress[i]) / 2 * slip[i];
        energy.friction_step += area * (work - held(now) + held(old));
      }
  return {model_.sum_over_ranks(energy.springs),
          model_.sum_over_ranks(energy.friction_step)};
}

template <int dim>
double ContactAssembly<dim>::deepest() const
{
  double deepest = 0;
  if (!separated_)
    for (const ContactState &state : latest_)
      deepest = std::max(deepest, -state.gap);
  return model_.max_over_ranks(deepest);
}

template std::vector<ToolForce> ContactAssembly<2>::tool_forces() const;
template std::vector<ToolForce> ContactAssembly<3>::tool_forces() const;
template ContactEnergy          ContactAssembly<2>::energy() const;
template ContactEnergy          ContactAssembly<3>::energy() const;
template double                 ContactAssembly<2>::deepest() const;
template double                 ContactAssembly<3>::deepest() const;
} // namespace throughbend
