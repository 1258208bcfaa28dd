#pragma once
// The linear system on several ranks: a PETSc matrix by rows, factorised by MUMPS, which
// analyses the pattern once. A singular matrix is a value; all else that goes wrong, as
// want of memory, is an exception, the same on every rank. Vectors stay whole on every
// rank; only the matrix and the factorisation are shared out.

#include "solver/fem/linear_system.h"

#include <deal.II/lac/petsc_sparse_matrix.h>
#include <deal.II/lac/petsc_vector.h>

#include <petscksp.h>

namespace throughbend
{
template <int dim>
class DistributedSystem : public LinearSystem
{
public:
  explicit DistributedSystem(const CouponModel<dim> &model);
  ~DistributedSystem() override;
  DistributedSystem(const DistributedSystem &)            = delete;
  DistributedSystem &operator=(const DistributedSystem &) = delete;
  void               clear() override;
  void add(unsigned cell, const std::vector<unsigned> &rows, const double *matrix) override;
  void add_coupling(std::size_t coupling, const double *matrix) override;
  void add_diagonal(double factor, const Vector &diagonal) override;
  bool solve(const Vector &right_side, Vector &solution) override;
  std::string solver_name() const override { return "MUMPS"; }

  /// Keeps nothing (what it analyses is the pattern), so what another solver kept for a
  /// pass that goes on here is of no use.
  bool restore(const SolverMemory &) override { return true; }

private:
  void set_up();    ///< makes the solver where there is none
  bool factorise(); ///< false: singular
  void add_block(const std::vector<unsigned> &unknowns, const double *matrix);

  const CouponModel<dim>                  &model_;
  dealii::IndexSet                         rows_; ///< owned by this rank
  dealii::PETScWrappers::MPI::SparseMatrix matrix_;
  KSP                                      solver_ = nullptr;
  int working_space_                               = 0; ///< beyond MUMPS's estimate [%]
};
} // namespace throughbend
