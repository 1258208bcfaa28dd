#pragma once
// The linearised equations as one object: take cell contributions, factorise, solve. One
// rank uses a serial direct solver on our own compressed columns, several ranks a
// distributed one; who assembles sees no difference. Always a direct solver: contact and
// plasticity make the systems unsymmetric and badly scaled, and at these sizes nothing
// beats it.

#include "solver/fem/coupon_model.h"

#include <memory>
#include <string>

namespace throughbend
{
class LinearSystem
{
public:
  virtual ~LinearSystem() = default;

  virtual void clear() = 0;

  /// Adds matrix[i * n + j] to the unknowns (rows[i], rows[j]) of an owned cell; rows are
  /// cell-local numbers, n of them. Rows and columns of held unknowns are skipped.
  virtual void add(unsigned cell, const std::vector<unsigned> &rows,
                   const double *matrix) = 0;

  /// Adds matrix[i * n + j] to unknowns i and j of a coupling of the model, by its number.
  /// Every rank must do so with the same numbers; they are taken once.
  virtual void add_coupling(std::size_t coupling, const double *matrix) = 0;

  /// Adds to the diagonal; `diagonal` is complete on every rank.
  virtual void add_diagonal(double factor, const Vector &diagonal) = 0;

  /// Solves with held unknowns at 0. False when the matrix is singular to working
  /// precision, the same answer on every rank.
  virtual bool solve(const Vector &right_side, Vector &solution) = 0;

  virtual std::string solver_name() const = 0;
};

/// The fastest solver for the model's rank count and dimension.
template <int dim>
std::unique_ptr<LinearSystem> make_linear_system(const CouponModel<dim> &model);
} // namespace throughbend
