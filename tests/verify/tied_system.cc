#include "tests/verify/tied_system.h"

#include <deal.II/lac/sparse_direct.h>

#include <cmath>

namespace throughbend
{
template <int dim>
TiedSystem<dim>::TiedSystem(const CouponModel<dim> &model, unsigned size,
                            const std::vector<Tie> &ties)
    : model_(model), ties_(ties), used_(size, false)
{
  dealii::DynamicSparsityPattern pattern(size);
  for (unsigned i = 0; i < size; ++i)
    pattern.add(i, i);
  for (const auto &cell : model_.cells())
    for (const unsigned i : cell.dofs)
      for (const unsigned j : cell.dofs)
        for (const auto &[row, by_row] : ties_[i].parts)
          for (const auto &[column, by_column] : ties_[j].parts)
          {
            used_[row] = true;
            pattern.add(row, column);
          }
  pattern_.copy_from(pattern);
  matrix_.reinit(pattern_);
}

template <int dim>
void TiedSystem<dim>::clear()
{
  matrix_ = 0;
  for (unsigned i = 0; i < used_.size(); ++i)
    if (!used_[i])
      matrix_.set(i, i, 1);
}

template <int dim>
void TiedSystem<dim>::add(unsigned cell, const std::vector<unsigned> &rows,
                          const double *matrix)
{
  const auto       &dofs = model_.cells()[cell].dofs;
  const std::size_t n    = rows.size();
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = 0; j < n; ++j)
      for (const auto &[row, by_row] : ties_[dofs[rows[i]]].parts)
        for (const auto &[column, by_column] : ties_[dofs[rows[j]]].parts)
          matrix_.add(row, column, by_row * matrix[i * n + j] * by_column);
}

template <int dim>
void TiedSystem<dim>::add_diagonal(double factor, const Vector &diagonal)
{
  for (unsigned i = 0; i < ties_.size(); ++i)
    for (const auto &[row, by_row] : ties_[i].parts)
      for (const auto &[column, by_column] : ties_[i].parts)
        matrix_.add(row, column, by_row * factor * diagonal[i] * by_column);
}

template <int dim>
bool TiedSystem<dim>::solve(const Vector &right_side, Vector &solution)
{
  dealii::SparseDirectUMFPACK factors;
  try
  {
    factors.initialize(matrix_);
  }
  catch (const dealii::SparseDirectUMFPACK::ExcUMFPACKError &)
  {
    return false;
  }
  solution.reinit(right_side.size());
  factors.vmult(solution, right_side);
  return std::isfinite(solution.l2_norm());
}

template class TiedSystem<2>;
template class TiedSystem<3>;
} // namespace throughbend
