#pragma once
// The linear system of a body whose end planes are guided: displacements that follow from
// shared unknowns (a plane's distance) are replaced by them. Small bodies only; where
// nothing is tied, the rungs use the systems of the pass.

#include "solver/fem/linear_system.h"

#include <deal.II/lac/dynamic_sparsity_pattern.h>
#include <deal.II/lac/sparse_matrix.h>
#include <deal.II/lac/sparsity_pattern.h>

#include <utility>
#include <vector>

namespace throughbend
{
/// One displacement as offset + sum of factor times unknown [mm].
struct Tie
{
  double                                   offset = 0;
  std::vector<std::pair<unsigned, double>> parts; ///< unknown, factor [-]
};

template <int dim>
class TiedSystem : public LinearSystem
{
public:
  /// `ties` has one entry per displacement; `size` is the number of unknowns. Which
  /// unknowns a displacement follows must not change later, the factors may.
  TiedSystem(const CouponModel<dim> &model, unsigned size, const std::vector<Tie> &ties);

  void follow(const std::vector<Tie> &ties) { ties_ = ties; }

  void clear() override;
  void add(unsigned cell, const std::vector<unsigned> &rows, const double *matrix) override;
  /// Bodies of the ladder have no flaws.
  void        add_coupling(std::size_t, const double *) override {}
  void        add_diagonal(double factor, const Vector &diagonal) override;
  bool        solve(const Vector &right_side, Vector &solution) override;
  std::string solver_name() const override { return "UMFPACK, tied"; }

private:
  const CouponModel<dim>      &model_;
  std::vector<Tie>             ties_;
  std::vector<bool>            used_;
  dealii::SparsityPattern      pattern_;
  dealii::SparseMatrix<double> matrix_;
};
} // namespace throughbend
