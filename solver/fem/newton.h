#pragma once
// Newton's method with a line search on the energy. Failure is a value, the same on every
// rank; the caller decides what to do about it.

#include "solver/fem/pass_equations.h"
#include "solver/setup/pass_setup.h"

#include <functional>

namespace throughbend
{
struct NewtonSettings
{
  double tolerance      = 1e-3; ///< unbalanced force / contact force [-]
  double least_force    = 0;    ///< contact force below which this one is the measure [N]
  double largest_move   = 0;    ///< of any unknown in one iteration [mm]
  int    max_iterations = 20;
  int    patience = 8; ///< iterations in which the unbalanced force must come down by half
  /// Contact force above which this one is the measure [N]: an iteration that runs away
  /// must not make anything small beside it.
  double most_force = 1e300;
  /// Asked before each iteration and each try of the line search, on all ranks at once;
  /// once true, always true. Empty: nobody asks.
  std::function<bool()> asked_to_stop = {};
};

/// For a model whose forces times `whole_coupon_factor` [-] are the whole coupon's.
NewtonSettings newton_settings(const EquilibriumGoal &goal, double whole_coupon_factor);

enum class NewtonEnd
{
  converged,
  inside_out, ///< the start itself is not a possible shape
  singular,
  stagnated,   ///< the residual no longer falls, or too many iterations
  interrupted, ///< told to stop; says nothing about the equations
};

struct NewtonReport
{
  NewtonEnd end        = NewtonEnd::stagnated;
  int       iterations = 0;
  double    residual   = 0; ///< unbalanced force / measure at the end [-]

  bool converged() const { return end == NewtonEnd::converged; }
};

/// Improves u until the equations hold at `load`; on success they stand evaluated at u.
/// The search accepts a step once |R(u + a du) . du| has fallen enough; the residual's size
/// misleads in contact, where it may have to rise first (Matthies & Strang 1979, Int. J.
/// Numer. Methods Eng. 14, 1613; Crisfield 1991, sec. 9.2).
template <int dim>
NewtonReport solve_newton(PassEquations<dim> &equations, Vector &u, const LoadPoint &load,
                          const NewtonSettings &settings);
} // namespace throughbend
