#pragma once
// The system matrix of several ranks: PETSc's, each rank holding the rows of its unknowns,
// and for each entry of a cell the place where it is added, as in compressed_columns.h.
// What belongs to another rank's rows is sent there. Solves nothing.

#include "solver/fem/coupon_model.h"

#include <deal.II/lac/petsc_sparse_matrix.h>

#include <petscmat.h>

#include <vector>

namespace throughbend
{
class DistributedMatrix
{
public:
  /// `model` must outlive the matrix. Throws std::runtime_error when PETSc refuses.
  template <int dim>
  explicit DistributedMatrix(const CouponModel<dim> &model);

  void clear();
  void add(unsigned cell, const std::vector<unsigned> &rows, const double *matrix);
  void add_cells(unsigned first, unsigned n_cells, const double *matrices);
  /// Of unknowns that need not meet in a cell, but have a place in the matrix.
  void add_block(const std::vector<unsigned> &unknowns, const double *matrix);
  void add_diagonal(double factor, const Vector &diagonal);

  /// 1 on the diagonal of what is held; sends what other ranks own. Then mat() is complete.
  void finish();

  const dealii::IndexSet &rows() const { return rows_; } ///< owned by this rank
  Mat                     mat() const { return matrix_; }

private:
  /// The two parts in which PETSc keeps this rank's rows: columns of its own unknowns, and
  /// those of other ranks.
  struct Part
  {
    Mat             mat    = nullptr;
    const PetscInt *starts = nullptr, *columns = nullptr;
  };
  void find_places();
  int  place_of(const Part &own, const Part &others, const PetscInt *other_columns,
                unsigned i, unsigned j) const;
  void add_diagonal_entry(PetscInt i, double value);

  const std::vector<bool>                 &held_; ///< of all unknowns
  dealii::IndexSet                         rows_;
  dealii::PETScWrappers::MPI::SparseMatrix matrix_;
  unsigned                                 cell_size_ = 0; ///< unknowns per cell
  std::vector<std::vector<unsigned>>       unknowns_;      ///< of each own cell
  std::vector<int> place_;           ///< [(cell * cell_size_ + i) * cell_size_ + j]
  int              others_from_ = 0; ///< places from here on are in the second part
};
} // namespace throughbend
