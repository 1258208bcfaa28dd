#include "solver/fem/newton.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double enough    = 0.5; // |G(a)| / |G(0)| at which the search stops
constexpr int    max_tries = 6;

bool asked_to_stop(const NewtonSettings &settings)
{
  return settings.asked_to_stop && settings.asked_to_stop();
}

/// Moves u along du by the searched share. False when no share gives a possible shape, or
/// when told to stop.
template <int dim>
bool search(PassEquations<dim> &equations, Vector &u, const Vector &du,
            const LoadPoint &load, const NewtonSettings &settings)
{
  const Vector start = u;
  const double slope = equations.residual() * du;
  const auto   go    = [&](double share)
  {
    if (asked_to_stop(settings))
      return false;
    u = start;
    u.add(share, du);
    return equations.evaluate(u, load);
  };

  double share    = 1;
  bool   possible = go(share);
  for (int i = 0; i < 10 && !possible; ++i)
  {
    share /= 3;
    possible = go(share);
  }
  if (!possible)
    return false;

  double now = equations.residual() * du;
  if (std::abs(now) <= enough * std::abs(slope) || now * slope > 0)
    return true;
  // The energy's slope changed sign: its minimum lies between. Regula falsi, Illinois
  // style.
  double low = 0, low_slope = slope, high = share, high_slope = now;
  for (int i = 0; i < max_tries && std::abs(now) > enough * std::abs(slope); ++i)
  {
    share = low + (high - low) * low_slope / (low_slope - high_slope);
    share = std::clamp(share, low + 0.05 * (high - low), high - 0.05 * (high - low));
    if (!go(share))
      return false;
    now = equations.residual() * du;
    if (now * slope > 0)
    {
      low       = share;
      low_slope = now;
      high_slope /= 2;
    }
    else
    {
      high       = share;
      high_slope = now;
      low_slope /= 2;
    }
  }
  return true;
}
} // namespace

NewtonSettings newton_settings(const EquilibriumGoal &goal,
                               const double           whole_coupon_factor)
{
  NewtonSettings settings;
  settings.tolerance    = goal.tolerance;
  settings.least_force  = goal.least_force / whole_coupon_factor;
  settings.most_force   = goal.most_force / whole_coupon_factor;
  settings.largest_move = goal.largest_move;
  return settings;
}

template <int dim>
NewtonReport solve_newton(PassEquations<dim> &equations, Vector &u, const LoadPoint &load,
                          const NewtonSettings &settings)
{
  NewtonReport report;
  if (!equations.evaluate(u, load))
  {
    report.end = NewtonEnd::inside_out;
    return report;
  }
  Vector du(u.size());
  double best    = 1e300;
  int    best_at = 0;
  for (;; ++report.iterations)
  {
    if (asked_to_stop(settings))
    {
      report.end = NewtonEnd::interrupted;
      return report;
    }
    const double measure =
        std::clamp(equations.contact_norm(), settings.least_force, settings.most_force);
    report.residual = equations.residual().l2_norm() / measure;
    if (report.residual <= settings.tolerance)
    {
      report.end = NewtonEnd::converged;
      return report;
    }
    if (report.residual < 0.5 * best)
    {
      best    = report.residual;
      best_at = report.iterations;
    }
    if (report.iterations - best_at >= settings.patience ||
        report.iterations >= settings.max_iterations)
      return report;

    Vector right(equations.residual());
    right *= -1;
    if (!equations.solve(right, du))
    {
      report.end = NewtonEnd::singular;
      return report;
    }
    const double move = du.linfty_norm();
    if (move > settings.largest_move)
      du *= settings.largest_move / move;
    if (!search(equations, u, du, load, settings))
    {
      if (asked_to_stop(settings))
        report.end = NewtonEnd::interrupted;
      return report;
    }
  }
}

template NewtonReport solve_newton<2>(PassEquations<2> &, Vector &, const LoadPoint &,
                                      const NewtonSettings &);
template NewtonReport solve_newton<3>(PassEquations<3> &, Vector &, const LoadPoint &,
                                      const NewtonSettings &);
} // namespace throughbend
