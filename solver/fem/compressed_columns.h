#pragma once
// The serial system matrix: compressed columns with a fixed pattern, and for each cell the
// place of every entry, so that assembly is one addition per entry. Unknowns stand in the
// common order (see CouponModel), which on one rank is the model's own. Solves nothing.

#include "solver/fem/coupon_model.h"

#include <vector>

namespace throughbend
{
class CompressedColumns
{
public:
  template <int dim>
  explicit CompressedColumns(const CouponModel<dim> &model);

  void clear();
  void add(unsigned cell, const std::vector<unsigned> &rows, const double *matrix);
  /// As LinearSystem::add_cells(). May be called at once for cells that share no node.
  void add_cells(unsigned first, unsigned n_cells, const double *matrices);
  void add_coupling(std::size_t coupling, const double *matrix);
  void add_diagonal(double factor, const Vector &diagonal); ///< in the common order

  /// With several ranks each adds its own cells; then the first rank gets the sum.
  void sum_on_first_rank(MPI_Comm communicator);

  int                        size() const { return static_cast<int>(starts_.size()) - 1; }
  std::vector<int>          &starts() { return starts_; }
  const std::vector<int>    &starts() const { return starts_; }
  std::vector<int>          &rows() { return rows_; }
  const std::vector<int>    &rows() const { return rows_; }
  std::vector<double>       &values() { return values_; }
  const std::vector<double> &values() const { return values_; }
  const std::vector<bool>   &held() const { return held_; }

  Vector times(const Vector &x) const; ///< matrix * x

  /// Entry (j, i) of a stored entry (i, j), by their places in values(). The pattern is
  /// symmetric.
  std::size_t mirrored(int column, std::size_t place) const;

  /// right - matrix * x, largest entry by size relative to that of `right`.
  double relative_residual(const Vector &x, const Vector &right) const;

private:
  int  place_of(unsigned i, unsigned j) const; ///< in values_
  void free_held();                            ///< 1 on their diagonal

  std::vector<int> starts_, rows_, diagonal_;
  std::vector<double>
                    values_; ///< one more entry than rows_: where held entries are dropped
  std::vector<bool> held_;
  unsigned          cell_size_ = 0; ///< unknowns per cell
  std::vector<int>  place_;         ///< [(cell * cell_size_ + i) * cell_size_ + j]
  std::vector<std::vector<int>> coupling_place_; ///< of each coupling [i * n + j]
};
} // namespace throughbend
