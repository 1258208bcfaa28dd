#pragma once
// The linear system of several ranks while it is small: each adds its own cells, the first
// rank takes the sum, solves it as one rank alone would, and tells the others. Sharing out
// the factorisation would cost more messages than it saves work. Rounds like one rank, but
// for the order of sums.

#include "solver/fem/compressed_columns.h"
#include "solver/fem/linear_system.h"

#include <functional>

namespace throughbend
{
template <int dim>
class GatheredSystem : public LinearSystem
{
public:
  using SharedMatrix = std::shared_ptr<CompressedColumns>;
  using SolverMaker  = std::function<std::unique_ptr<LinearSystem>(SharedMatrix)>;

  /// `solver` is asked for on the first rank only.
  GatheredSystem(const CouponModel<dim> &model, const SolverMaker &solver);

  void clear() override { matrix_->clear(); }
  void add(unsigned cell, const std::vector<unsigned> &rows, const double *matrix) override
  {
    matrix_->add(cell, rows, matrix);
  }
  void add_cells(unsigned first, unsigned n_cells, const double *matrices,
                 unsigned) override
  {
    matrix_->add_cells(first, n_cells, matrices);
  }
  void        add_coupling(std::size_t coupling, const double *matrix) override;
  void        add_diagonal(double factor, const Vector &diagonal) override;
  bool        solve(const Vector &right_side, Vector &solution) override;
  std::string solver_name() const override;
  void        forget_factors() override
  {
    if (first())
      solver_->forget_factors();
  }

  /// In the common order, so it is that of any number of ranks.
  SolverMemory memory() const override { return first() ? solver_->memory() : nullptr; }
  bool         restore(const SolverMemory &memory) override
  {
    return !first() || solver_->restore(memory);
  }

private:
  bool first() const { return solver_ != nullptr; } ///< this rank

  const CouponModel<dim>       &model_;
  SharedMatrix                  matrix_;
  std::unique_ptr<LinearSystem> solver_; ///< null but on the first rank
};
} // namespace throughbend
