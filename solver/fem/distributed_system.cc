#include "solver/fem/distributed_system.h"

#include <deal.II/lac/dynamic_sparsity_pattern.h>
#include <deal.II/lac/sparsity_tools.h>

#include <algorithm>
#include <cmath>
#include <new>
#include <stdexcept>

namespace throughbend
{
namespace
{
/// Every failure that PETSc reports is an error; a singular matrix is none of them.
void check(PetscErrorCode code, const char *where)
{
  if (code != 0)
    throw std::runtime_error("PETSc stopped in " + std::string(where) + ", error " +
                             std::to_string(static_cast<int>(code)));
}
} // namespace

template <int dim>
DistributedSystem<dim>::DistributedSystem(const CouponModel<dim> &model)
    : model_(model), rows_(model.dof_handler().locally_owned_dofs())
{
  dealii::DynamicSparsityPattern pattern(model.n_dofs());
  for (unsigned j = 0; j < model.n_dofs(); ++j)
    pattern.add(j, j);
  for (const auto &cell : model.cells())
    for (const unsigned i : cell.dofs)
      for (const unsigned j : cell.dofs)
        pattern.add(i, j);
  for (const std::vector<unsigned> &coupling : model.couplings())
    for (const unsigned i : coupling)
      for (const unsigned j : coupling)
        pattern.add(i, j);
  dealii::IndexSet all(model.n_dofs());
  all.add_range(0, model.n_dofs());
  dealii::SparsityTools::distribute_sparsity_pattern(pattern, rows_, model.communicator(),
                                                     all);
  matrix_.reinit(rows_, rows_, pattern, model.communicator());
}

template <int dim>
DistributedSystem<dim>::~DistributedSystem()
{
  KSPDestroy(&solver_);
}

template <int dim>
void DistributedSystem<dim>::clear()
{
  matrix_ = 0;
}

template <int dim>
void DistributedSystem<dim>::add(unsigned cell, const std::vector<unsigned> &rows,
                                 const double *matrix)
{
  std::vector<unsigned> unknowns;
  for (const unsigned row : rows)
    unknowns.push_back(model_.cells()[cell].dofs[row]);
  add_block(unknowns, matrix);
}

template <int dim>
void DistributedSystem<dim>::add_coupling(std::size_t coupling, const double *matrix)
{
  if (dealii::Utilities::MPI::this_mpi_process(model_.communicator()) == 0)
    add_block(model_.couplings()[coupling], matrix);
}

template <int dim>
void DistributedSystem<dim>::add_block(const std::vector<unsigned> &unknowns,
                                       const double                *matrix)
{
  const auto                                  &held = model_.held();
  const std::size_t                            n    = unknowns.size();
  std::vector<dealii::types::global_dof_index> columns;
  std::vector<double>                          values;
  for (std::size_t i = 0; i < n; ++i)
  {
    const unsigned row = unknowns[i];
    if (held[row])
      continue;
    columns.clear();
    values.clear();
    for (std::size_t j = 0; j < n; ++j)
    {
      const unsigned column = unknowns[j];
      if (held[column])
        continue;
      columns.push_back(column);
      values.push_back(matrix[i * n + j]);
    }
    matrix_.add(row, static_cast<unsigned>(columns.size()), columns.data(), values.data(),
                false);
  }
}

template <int dim>
void DistributedSystem<dim>::add_diagonal(double factor, const Vector &diagonal)
{
  for (const auto i : rows_)
    if (!model_.held()[i])
      matrix_.add(i, i, factor * diagonal[static_cast<unsigned>(i)]);
}

template <int dim>
bool DistributedSystem<dim>::solve(const Vector &right_side, Vector &solution)
{
  for (const auto i : rows_)
    if (model_.held()[i])
      matrix_.add(i, i, 1.);
  matrix_.compress(dealii::VectorOperation::add);

  dealii::PETScWrappers::MPI::Vector right(rows_, model_.communicator());
  dealii::PETScWrappers::MPI::Vector x(rows_, model_.communicator());
  for (const auto i : rows_)
    right(i) = model_.held()[i] ? 0. : right_side[static_cast<unsigned>(i)];
  right.compress(dealii::VectorOperation::insert);

  const bool good = factorise();
  if (good)
    check(KSPSolve(solver_, right, x), "the solution");
  solution.reinit(model_.n_dofs());
  if (good)
    for (const auto i : rows_)
      solution[static_cast<unsigned>(i)] = x(i);
  model_.sum_over_ranks(solution);
  return model_.max_over_ranks(good && std::isfinite(solution.l2_norm()) ? 0. : 1.) == 0.;
}

template <int dim>
void DistributedSystem<dim>::set_up()
{
  if (solver_ != nullptr)
    return;
  PC  factors = nullptr;
  Mat factor  = nullptr;
  Mat matrix  = matrix_;
  check(KSPCreate(model_.communicator(), &solver_), "the set-up");
  check(KSPSetType(solver_, KSPPREONLY), "the set-up");
  check(KSPSetOperators(solver_, matrix, matrix), "the set-up");
  check(KSPGetPC(solver_, &factors), "the set-up");
  check(PCSetType(factors, PCLU), "the set-up");
  check(PCFactorSetMatSolverType(factors, MATSOLVERMUMPS), "the set-up");
  check(PCFactorSetUpMatSolverType(factors), "the set-up");
  check(PCFactorGetMatrix(factors, &factor), "the set-up");
  check(MatMumpsSetIcntl(factor, 14, working_space_), "the set-up");
}

template <int dim>
bool DistributedSystem<dim>::factorise()
{
  constexpr int usual_space = 40, most_space = 1000; // per cent beyond MUMPS's estimate
  working_space_ = std::max(working_space_, usual_space);
  for (;;)
  {
    set_up();
    Mat            matrix = matrix_, factor = nullptr;
    PC             factors = nullptr;
    MatFactorError error   = MAT_FACTOR_NOERROR;
    PetscInt       code    = 0;
    // The pattern stays, so the analysis of the first time does too.
    check(KSPSetOperators(solver_, matrix, matrix), "the set-up");
    check(KSPSetUp(solver_), "the factorisation");
    check(KSPGetPC(solver_, &factors), "the factorisation");
    check(PCFactorGetMatrix(factors, &factor), "the factorisation");
    check(MatFactorGetError(factor, &error), "the factorisation");
    if (error == MAT_FACTOR_NOERROR)
      return true;
    check(MatMumpsGetInfog(factor, 1, &code), "the factorisation");
    // PETSc goes on refusing after a failure.
    check(KSPDestroy(&solver_), "the factorisation");
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
