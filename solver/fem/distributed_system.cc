#include "solver/fem/distributed_system.h"

#include "solver/fem/petsc_check.h"

#include <algorithm>
#include <cmath>
#include <new>
#include <stdexcept>

namespace throughbend
{
template <int dim>
DistributedSystem<dim>::DistributedSystem(const CouponModel<dim> &model,
                                          const SharedSolver solver, const double tolerance)
    : model_(model), matrix_(model)
{
  if (solver == SharedSolver::two_level)
    iterative_.push_back(std::make_unique<DistributedKrylov>(
        tolerance, model.communicator(), coarse_space(model), matrix_.rows()));
  using Factors      = DistributedKrylov::Factors;
  const auto factors = iterative_.empty() ? Factors::each_anew : Factors::kept;
  iterative_.push_back(
      std::make_unique<DistributedKrylov>(tolerance, model.communicator(), factors));
}

template <int dim>
std::string DistributedSystem<dim>::solver_name() const
{
  return iterative_.front()->name();
}

template <int dim>
DistributedSystem<dim>::~DistributedSystem()
{
  KSPDestroy(&solver_);
}

template <int dim>
void DistributedSystem<dim>::clear()
{
  matrix_.clear();
}

template <int dim>
void DistributedSystem<dim>::add(unsigned cell, const std::vector<unsigned> &rows,
                                 const double *matrix)
{
  matrix_.add(cell, rows, matrix);
}

template <int dim>
void DistributedSystem<dim>::add_cells(unsigned first, unsigned n_cells,
                                       const double *matrices, unsigned)
{
  matrix_.add_cells(first, n_cells, matrices);
}

template <int dim>
void DistributedSystem<dim>::add_coupling(std::size_t coupling, const double *matrix)
{
  if (dealii::Utilities::MPI::this_mpi_process(model_.communicator()) == 0)
    matrix_.add_block(model_.couplings()[coupling], matrix);
}

template <int dim>
void DistributedSystem<dim>::add_diagonal(double factor, const Vector &diagonal)
{
  matrix_.add_diagonal(factor, diagonal);
}

template <int dim>
bool DistributedSystem<dim>::solve(const Vector &right_side, Vector &solution)
{
  matrix_.finish();
  const dealii::IndexSet            &rows = matrix_.rows();
  dealii::PETScWrappers::MPI::Vector right(rows, model_.communicator());
  dealii::PETScWrappers::MPI::Vector x(rows, model_.communicator());
  for (const auto i : rows)
    right(i) = model_.held()[i] ? 0. : right_side[static_cast<unsigned>(i)];
  right.compress(dealii::VectorOperation::insert);

  const bool good = iterate(right, x) || solve_whole(right, x);
  solution.reinit(model_.n_dofs());
  if (good)
    for (const auto i : rows)
      solution[static_cast<unsigned>(i)] = x(i);
  model_.sum_over_ranks(solution);
  return model_.max_over_ranks(good && std::isfinite(solution.l2_norm()) ? 0. : 1.) == 0.;
}

template <int dim>
bool DistributedSystem<dim>::iterate(Vec right, Vec x)
{
  for (; next_ + 1 < iterative_.size(); ++next_)
    if (iterative_[next_]->solve(matrix_.mat(), right, x))
      return true;
  return iterative_[next_]->solve(matrix_.mat(), right, x);
}

template <int dim>
void DistributedSystem<dim>::forget_factors()
{
  next_ = 0;
  if (iterative_.size() > 1)
    iterative_.back()->forget(); // memory, for what is seldom needed
}

template <int dim>
bool DistributedSystem<dim>::solve_whole(Vec right, Vec x)
{
  ++fallbacks_;
  if (!factorise())
    return false;
  check_petsc(KSPSolve(solver_, right, x), "the solution");
  check_petsc(KSPDestroy(&solver_), "the solution");
  return true;
}

template <int dim>
void DistributedSystem<dim>::set_up()
{
  PC  factors = nullptr;
  Mat factor  = nullptr;
  Mat matrix  = matrix_.mat();
  check_petsc(KSPCreate(model_.communicator(), &solver_), "the set-up");
  check_petsc(KSPSetType(solver_, KSPPREONLY), "the set-up");
  check_petsc(KSPSetOperators(solver_, matrix, matrix), "the set-up");
  check_petsc(KSPGetPC(solver_, &factors), "the set-up");
  check_petsc(PCSetType(factors, PCLU), "the set-up");
  check_petsc(PCFactorSetMatSolverType(factors, MATSOLVERMUMPS), "the set-up");
  check_petsc(PCFactorSetUpMatSolverType(factors), "the set-up");
  check_petsc(PCFactorGetMatrix(factors, &factor), "the set-up");
  check_petsc(MatMumpsSetIcntl(factor, 14, working_space_), "the set-up");
}

template <int dim>
bool DistributedSystem<dim>::factorise()
{
  constexpr int usual_space = 40, most_space = 1000; // per cent beyond MUMPS's estimate
  working_space_ = std::max(working_space_, usual_space);
  for (;;)
  {
    set_up();
    Mat            factor  = nullptr;
    PC             factors = nullptr;
    MatFactorError error   = MAT_FACTOR_NOERROR;
    PetscInt       code    = 0;
    check_petsc(KSPSetUp(solver_), "the factorisation");
    check_petsc(KSPGetPC(solver_, &factors), "the factorisation");
    check_petsc(PCFactorGetMatrix(factors, &factor), "the factorisation");
    check_petsc(MatFactorGetError(factor, &error), "the factorisation");
    if (error == MAT_FACTOR_NOERROR)
      return true;
    check_petsc(MatMumpsGetInfog(factor, 1, &code), "the factorisation");
    // PETSc goes on refusing after a failure.
    check_petsc(KSPDestroy(&solver_), "the factorisation");
    if (error == MAT_FACTOR_STRUCT_ZEROPIVOT || error == MAT_FACTOR_NUMERIC_ZEROPIVOT)
      return false; // singular: a value for Newton, not an error
    const bool too_small = code == -8 || code == -9 || code == -14 || code == -15;
    if (too_small && working_space_ < most_space)
    {
      working_space_ *= 3; // more pivots were put off than there was room for
      continue;
    }
    if (too_small)
    {
      working_space_ = usual_space;
      return false; // without end: no pivot is any good
    }
    if (code == -13 || code == -7)
      throw std::bad_alloc();
    throw std::runtime_error("MUMPS could not factorise the matrix, which is not singular: "
                             "INFOG(1) = " +
                             std::to_string(code));
  }
}

template class DistributedSystem<2>;
template class DistributedSystem<3>;
} // namespace throughbend
