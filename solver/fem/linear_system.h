#pragma once
// The linearised equations as one object: take cell contributions, factorise, solve. Serial
// and distributed systems share this interface. Small plane models are factorised as they
// are; elsewhere the factors of the symmetric part precondition GMRES, because only
// friction (and a backstress) makes the matrix unsymmetric, and by little.

#include "solver/fem/coupon_model.h"

#include <memory>
#include <string>
#include <vector>

namespace throughbend
{
/// Entries of the matrix from which a solver has chosen what it keeps from one
/// factorisation to the next, such as the order of pivots; null: it keeps nothing, or
/// nothing yet.
using SolverMemory = std::shared_ptr<const std::vector<double>>;

class LinearSystem
{
public:
  virtual ~LinearSystem() = default;

  virtual void clear() = 0;

  /// Adds matrix[i * n + j] to the unknowns (rows[i], rows[j]) of an owned cell; rows are
  /// cell-local numbers, n of them. Rows and columns of held unknowns are skipped.
  virtual void add(unsigned cell, const std::vector<unsigned> &rows,
                   const double *matrix) = 0;

  /// As add() with all the n unknowns, in order, of `n_cells` owned cells from `first` on:
  /// entry (i, j) of the cell first + l stands at matrices[(i * n + j) * n_lanes + l].
  virtual void add_cells(unsigned first, unsigned n_cells, const double *matrices,
                         unsigned n);

  /// Adds matrix[i * n + j] to unknowns i and j of a coupling of the model, by its number.
  /// Every rank must do so with the same numbers; they are taken once.
  virtual void add_coupling(std::size_t coupling, const double *matrix) = 0;

  /// Adds to the diagonal; `diagonal` is complete on every rank.
  virtual void add_diagonal(double factor, const Vector &diagonal) = 0;

  /// Whether two threads may call add_cells() at once for cells that share no node.
  virtual bool adds_in_parallel() const { return false; }

  /// Solves with held unknowns at 0, to the accuracy that the system was made for: what a
  /// Newton iteration can use. False when the matrix is singular to working precision, the
  /// same answer on every rank. Any other failure is an exception.
  virtual bool solve(const Vector &right_side, Vector &solution) = 0;

  virtual std::string solver_name() const = 0;

  /// Lets go of factors that serve several solves. Called at each accepted state, so that a
  /// pass that is resumed there goes on as one that never stopped.
  virtual void forget_factors() {}

  /// Rounding depends on it, so a pass that is resumed takes it up again. restore() returns
  /// false when it does not fit the matrix; what was assembled is lost.
  virtual SolverMemory memory() const { return nullptr; }
  virtual bool         restore(const SolverMemory &memory) { return memory == nullptr; }
};

/// The fastest solver for the model's rank count and dimension.
template <int dim>
std::unique_ptr<LinearSystem> make_linear_system(const CouponModel<dim> &model);
} // namespace throughbend
