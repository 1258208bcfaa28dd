#pragma once
// The linear system on several ranks: a PETSc matrix by rows, solved by GMRES with LDL^T
// or, for large bodies, a two-level cycle. Where that does not get there, the next dearer
// solver is tried: LDL^T, then the whole matrix, all by MUMPS. Once the cycle has missed,
// LDL^T serves until the next accepted state, as in krylov_system.h. A singular matrix is a
// value; all else that goes wrong, as want of memory, is an exception, the same on every
// rank. Vectors stay whole on every rank; only the matrix and the factors are shared out.

#include "solver/fem/distributed_krylov.h"
#include "solver/fem/distributed_matrix.h"
#include "solver/fem/linear_system.h"

#include <deal.II/lac/petsc_vector.h>

#include <petscksp.h>

namespace throughbend
{
enum class SharedSolver
{
  symmetric, ///< LDL^T
  two_level  ///< for bodies whose cells are about as long as wide
};

template <int dim>
class DistributedSystem : public LinearSystem
{
public:
  /// `tolerance` = residual at which GMRES stops, over the right side's [-].
  DistributedSystem(const CouponModel<dim> &model, SharedSolver solver, double tolerance);
  ~DistributedSystem() override;
  DistributedSystem(const DistributedSystem &)            = delete;
  DistributedSystem &operator=(const DistributedSystem &) = delete;
  void               clear() override;
  void add(unsigned cell, const std::vector<unsigned> &rows, const double *matrix) override;
  void add_cells(unsigned first, unsigned n_cells, const double *matrices,
                 unsigned n) override;
  void add_coupling(std::size_t coupling, const double *matrix) override;
  void add_diagonal(double factor, const Vector &diagonal) override;
  bool solve(const Vector &right_side, Vector &solution) override;
  std::string solver_name() const override;
  void        forget_factors() override;

  /// Keeps nothing (what it analyses is the pattern), so what another solver kept for a
  /// pass that goes on here is of no use.
  bool restore(const SolverMemory &) override { return true; }

  int fallbacks() const { return fallbacks_; } ///< solves that needed the whole matrix

private:
  bool iterate(Vec right, Vec x);
  bool solve_whole(Vec right, Vec x);
  void set_up();    ///< the solver of the whole matrix
  bool factorise(); ///< false: singular

  const CouponModel<dim> &model_;
  DistributedMatrix       matrix_;
  /// In the order in which they are tried, and which is the first to be.
  std::vector<std::unique_ptr<DistributedKrylov>> iterative_;
  std::size_t                                     next_   = 0;
  KSP                                             solver_ = nullptr;
  int working_space_ = 0; ///< beyond MUMPS's estimate [%]
  int fallbacks_     = 0;
};
} // namespace throughbend
