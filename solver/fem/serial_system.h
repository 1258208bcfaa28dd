#pragma once
// The one-rank linear systems that factorise the whole unsymmetric matrix: SuiteSparse's
// KLU for small plane models, UMFPACK where nothing cheaper does (see krylov_system.h).

#include "solver/fem/compressed_columns.h"
#include "solver/fem/linear_system.h"

#include <memory>
#include <utility>

extern "C"
{
#include <klu.h>
}

namespace throughbend
{
/// What the serial systems share: the matrix. Two systems may hold the same one, so that
/// the second can try what the first could not solve.
class SerialSystem : public LinearSystem
{
public:
  using SharedMatrix = std::shared_ptr<CompressedColumns>;

  explicit SerialSystem(SharedMatrix matrix) : shared_(std::move(matrix)), matrix_(*shared_)
  {
  }
  void clear() override { matrix_.clear(); }
  void add(unsigned cell, const std::vector<unsigned> &rows, const double *matrix) override
  {
    matrix_.add(cell, rows, matrix);
  }
  void add_cells(unsigned first, unsigned n_cells, const double *matrices,
                 unsigned) override
  {
    matrix_.add_cells(first, n_cells, matrices);
  }
  void add_coupling(std::size_t coupling, const double *matrix) override
  {
    matrix_.add_coupling(coupling, matrix);
  }
  void add_diagonal(double factor, const Vector &diagonal) override
  {
    matrix_.add_diagonal(factor, diagonal);
  }
  bool adds_in_parallel() const override { return true; }

protected:
  Vector       without_held(const Vector &right_side) const;
  SharedMatrix shared_matrix() const { return shared_; }

private:
  SharedMatrix shared_;

protected:
  CompressedColumns &matrix_;
};

/// KLU (Davis & Palamadai Natarajan 2010, ACM Trans. Math. Softw. 37, 36). Keeps the pivot
/// order from one factorisation to the next, which more than halves their cost, and checks
/// the solution; when the old order has gone bad it pivots anew.
class ColumnSystem : public SerialSystem
{
public:
  explicit ColumnSystem(SharedMatrix matrix);
  explicit ColumnSystem(CompressedColumns matrix)
      : ColumnSystem(std::make_shared<CompressedColumns>(std::move(matrix)))
  {
  }
  ~ColumnSystem() override;
  ColumnSystem(const ColumnSystem &)            = delete;
  ColumnSystem &operator=(const ColumnSystem &) = delete;
  bool          solve(const Vector &right_side, Vector &solution) override;
  std::string   solver_name() const override { return "KLU"; }
  SolverMemory  memory() const override { return pivoted_on_; }
  bool          restore(const SolverMemory &memory) override;

private:
  bool factorise_anew();
  bool solve_with_factors(const Vector &right_side, Vector &solution);

  klu_common    common_;
  klu_symbolic *symbolic_ = nullptr;
  klu_numeric  *numeric_  = nullptr;
  SolverMemory  pivoted_on_; ///< entries from which the pivots were chosen
};

/// UMFPACK (Davis 2004, ACM Trans. Math. Softw. 30, 196) with its symmetric strategy.
class FrontalSystem : public SerialSystem
{
public:
  explicit FrontalSystem(SharedMatrix matrix);
  explicit FrontalSystem(CompressedColumns matrix)
      : FrontalSystem(std::make_shared<CompressedColumns>(std::move(matrix)))
  {
  }
  ~FrontalSystem() override;
  FrontalSystem(const FrontalSystem &)            = delete;
  FrontalSystem &operator=(const FrontalSystem &) = delete;
  bool           solve(const Vector &right_side, Vector &solution) override;
  std::string    solver_name() const override { return "UMFPACK"; }

private:
  void *symbolic_ = nullptr;
};
} // namespace throughbend
