#include "solver/fem/distributed_system.h"

#include <deal.II/lac/dynamic_sparsity_pattern.h>
#include <deal.II/lac/petsc_solver.h>
#include <deal.II/lac/solver_control.h>
#include <deal.II/lac/sparsity_tools.h>

#include <cmath>

namespace throughbend
{
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

  bool good = true;
  try
  {
    dealii::SolverControl control(1, 1e300); // a direct solve, no check here
    dealii::PETScWrappers::SparseDirectMUMPS solver(control, model_.communicator());
    solver.solve(matrix_, x, right);
  }
  catch (const std::exception &)
  {
    good = false; // singular: a value for Newton, not an error
  }
  solution.reinit(model_.n_dofs());
  if (good)
    for (const auto i : rows_)
      solution[static_cast<unsigned>(i)] = x(i);
  model_.sum_over_ranks(solution);
  return model_.max_over_ranks(good && std::isfinite(solution.l2_norm()) ? 0. : 1.) == 0.;
}

template class DistributedSystem<2>;
template class DistributedSystem<3>;
} // namespace throughbend
