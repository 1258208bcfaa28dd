// The part of PassSimulation in which the coupon moves by itself at held tools: jumps where
// no step leads on, and the release at the end.

#include "solver/outcome/exit.h"
#include "solver/pass/pass_simulation.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace throughbend
{
/// Where no neighbouring equilibrium exists the coupon jumps: a leg slips off an edge, or
/// the whole is squeezed out. Pushes a little further against a strong regularisation, then
/// lets the regularisation fade until the next equilibrium is reached. Where there is none
/// the pass stands as before.
template <int dim>
typename PassSimulation<dim>::Settled PassSimulation<dim>::jump()
{
  ++counts_.jumps;
  char words[120];
  std::snprintf(
      words, sizeof words,
      "travel %.3f mm: no equilibrium nearby; relaxing the coupon to the next one",
      travel_);
  note(words);
  const Standing before = standing();
  const auto     go     = [&](const double nudge)
  {
    nudge_ = nudge;
    trail_.clear();
    // A coupon that goes all the way with the plunger is held by a fiftieth of the bending
    // force: more would bend it.
    const double  bends_nothing = setup_.regularisation.at_share(0.02, nudge);
    const Settled settled =
        settle(std::min(travel_ + nudge, setup_.ram.stroke),
               std::min(1e-3 * setup_.regularisation.strong, bends_nothing),
               !record().empty() && goes_along(record().back()) ? nudge : 0.);
    if (settled == Settled::nowhere)
      stand(before);
    return settled;
  };
  // Jump after jump, each goes further: where only regularisation leads on, the pass still
  // gets on. Like the steps, the first one grows with the travel. Where that is too far a
  // short one may do.
  constexpr double least = 2e-3, first = 0.05, most = 0.25, growth = 4;
  const double     largest = setup_.step.largest, near = least * largest;
  const double     now     = std::clamp(0.02 * travel_, near, first * largest);
  const double     far     = std::clamp(growth * nudge_, now, most * largest);
  Settled          settled = go(far);
  if (settled == Settled::nowhere && far > near)
    settled = go(near);
  if (settled != Settled::at_rest)
    return settled;
  step_.restart();
  record_step(StepKind::relax, 0, 0);
  return settled;
}

/// Implicit steps of u' = -R / (regularisation M) at held tools, regularisation fading as
/// the coupon calms down and rising where Newton fails. At rest: at the standing
/// regularisation. Newton begins where the coupon went down with the plunger by `carried`
/// [mm].
template <int dim>
typename PassSimulation<dim>::Settled
PassSimulation<dim>::settle(double travel, double first_regularisation, double carried)
{
  const StepKind kind           = StepKind::relax;
  double         regularisation = first_regularisation;
  const double   calm           = 1e-4 * setup_.coupon.thickness; // [mm]
  Vector         u(u_);
  constexpr int  limit = 150;
  for (int i = 0; i < limit; ++i)
  {
    u                         = carried_down(carried);
    const NewtonReport report = attempt({travel, regularisation}, u, newton_);
    if (report.end == NewtonEnd::interrupted)
      return Settled::interrupted;
    counts_.iterations += report.iterations;
    if (!report.converged())
    {
      ++counts_.refusals;
      if (regularisation > 1e4 * first_regularisation)
        return Settled::nowhere;
      regularisation *= 5;
      continue;
    }
    Vector moved(u);
    moved -= u_;
    const double move = moved.linfty_norm();
    accept(u, travel, kind);
    carried = 0;
    if (regularisation <= setup_.regularisation.standing)
      return Settled::at_rest;
    regularisation *= move < calm ? 0.05 : report.iterations <= 8 ? 0.4 : 0.7;
    regularisation = std::max(regularisation, setup_.regularisation.standing);
  }
  return Settled::nowhere;
}

template <int dim>
void PassSimulation<dim>::take_tools_away()
{
  // Where a coupon is still held at the end, that is its loaded state; one that is out was
  // last loaded before its first end left.
  const auto last_push = [this](auto &&fits)
  {
    return std::find_if(samples_.rbegin(), samples_.rend(),
                        [&](const PassSample &s)
                        { return s.kind == StepKind::push && fits(s); });
  };
  const auto held =
      is_held(setup_, samples_.back())
          ? last_push([](const PassSample &) { return true; })
          : last_push([this](const PassSample &s) { return is_loaded(setup_, s); });
  const PassSample loaded = held != samples_.rend() ? *held : samples_.back();
  begin_step();
  equations_.contact().separate();
  trail_.clear();
  const Settled settled = settle(travel_, 1e-4 * setup_.regularisation.strong);
  interrupted_          = settled == Settled::interrupted;
  if (interrupted_)
    return;
  release_.completed = settled == Settled::at_rest;
  record_step(StepKind::release, 0, 0);
  const PassSample free = samples_.back();

  release_.left_angle_loaded  = loaded.left.angle;
  release_.right_angle_loaded = loaded.right.angle;
  // A lopsided coupon turns as a whole when it leaves: that is no springback.
  const double turned       = free.tilt - loaded.tilt;
  release_.left_angle_free  = free.left.angle + turned;
  release_.right_angle_free = free.right.angle - turned;
  release_.left_springback  = loaded.left.angle - release_.left_angle_free;
  release_.right_springback = loaded.right.angle - release_.right_angle_free;
  release_.elastic_loaded   = loaded.energy.elastic;
  release_.elastic_free     = free.energy.elastic;
  // m v^2 / 2 = released; N mm = 1e-3 J.
  const double mass    = setup_.coupon.mass;
  const double joule   = 1e-3 * std::max(0., loaded.energy.elastic - free.energy.elastic);
  release_.speed_bound = mass > 0 ? std::sqrt(2 * joule / mass) : 0.;
}

template PassSimulation<2>::Settled PassSimulation<2>::jump();
template PassSimulation<3>::Settled PassSimulation<3>::jump();
template void                       PassSimulation<2>::take_tools_away();
template void                       PassSimulation<3>::take_tools_away();
} // namespace throughbend
