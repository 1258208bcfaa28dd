// The part of PassSimulation that says where Newton begins.

#include "solver/outcome/exit.h"
#include "solver/pass/pass_simulation.h"

#include <vector>

namespace throughbend
{
/// A shape near the equilibrium at `load`: the last shapes carried on, by a parabola. Legs
/// that go down with the plunger touch the tools lightly, and that contact chatters: a
/// parabola through three shapes makes the chatter of one three times as large, a straight
/// line through two twice, and a coupon moved down as it is not at all. There the guess is
/// the one of the three that leaves the least force unbalanced; but one that the ram no
/// longer bears is not moved down: at rest it would stay in the air. After a jump there is
/// no past to carry on; a `loose` coupon still goes down with the plunger.
template <int dim>
Vector PassSimulation<dim>::first_guess(const LoadPoint &load, const bool loose)
{
  const bool   along = !record().empty() && goes_along(record().back());
  const double way   = load.travel - travel_;
  if (!trail_.can_guess())
    return loose && along ? carried_down(way) : u_;
  Vector best = trail_.guess(load.travel);
  if (!along)
    return best;
  std::vector<Vector> others = {trail_.guess(load.travel, 2)};
  if (still_bears(record()))
    others.push_back(carried_down(way));
  const auto unbalanced = [&](const Vector &u)
  { return equations_.evaluate(u, load) ? equations_.residual().l2_norm() : 1e300; };
  double least = unbalanced(best);
  for (const Vector &other : others)
    if (const double force = unbalanced(other); force < least)
    {
      least = force;
      best  = other;
    }
  return best;
}

/// The present shape, with all of the coupon that is not held `way` [mm] lower.
template <int dim>
Vector PassSimulation<dim>::carried_down(const double way) const
{
  Vector u(u_);
  for (unsigned k = 0; k < u.size(); ++k)
    if (model_.component()[k] == 1 && !model_.held()[k])
      u[k] -= way;
  return u;
}

template Vector PassSimulation<2>::first_guess(const LoadPoint &, bool);
template Vector PassSimulation<3>::first_guess(const LoadPoint &, bool);
template Vector PassSimulation<2>::carried_down(double) const;
template Vector PassSimulation<3>::carried_down(double) const;
} // namespace throughbend
