#pragma once
// A linear system that only remembers what was assembled, as a dense matrix, so that tests
// can compare tangents with difference quotients and solvers with Gauss elimination. Keeps
// held rows and columns too: the solvers leave them out.

#include "solver/fem/linear_system.h"

#include <deal.II/lac/full_matrix.h>

namespace throughbend
{
template <int dim>
class DenseSystem : public LinearSystem
{
public:
  explicit DenseSystem(const CouponModel<dim> &model)
      : model_(model), matrix_(model.n_dofs(), model.n_dofs())
  {
  }
  void clear() override { matrix_ = 0; }
  void add(unsigned cell, const std::vector<unsigned> &rows, const double *matrix) override
  {
    const auto       &dofs = model_.cells()[cell].dofs;
    const std::size_t n    = rows.size();
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < n; ++j)
        matrix_(dofs[rows[i]], dofs[rows[j]]) += matrix[i * n + j];
  }
  void add_coupling(std::size_t coupling, const double *matrix) override
  {
    const std::vector<unsigned> &dofs = model_.couplings()[coupling];
    const std::size_t            n    = dofs.size();
    for (std::size_t i = 0; i < n; ++i)
      for (std::size_t j = 0; j < n; ++j)
        matrix_(dofs[i], dofs[j]) += matrix[i * n + j];
  }
  void add_diagonal(double factor, const Vector &diagonal) override
  {
    for (unsigned i = 0; i < diagonal.size(); ++i)
      matrix_(i, i) += factor * diagonal[i];
  }
  bool solve(const Vector &right_side, Vector &solution) override
  {
    dealii::FullMatrix<double> inverse(matrix_);
    Vector                     right(right_side);
    for (unsigned i = 0; i < right.size(); ++i)
      if (model_.held()[i])
      {
        for (unsigned j = 0; j < right.size(); ++j)
          inverse(i, j) = inverse(j, i) = i == j;
        right[i] = 0;
      }
    inverse.gauss_jordan();
    solution.reinit(right.size());
    inverse.vmult(solution, right);
    return true;
  }
  std::string solver_name() const override { return "dense"; }

  const dealii::FullMatrix<double> &matrix() const { return matrix_; }

private:
  const CouponModel<dim>    &model_;
  dealii::FullMatrix<double> matrix_;
};
} // namespace throughbend
