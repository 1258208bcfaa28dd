#pragma once
// The product of a serial matrix and a vector, row by row, shared out over a crew: for
// solvers that ask for many products of one matrix.

#include "solver/fem/cell_crew.h"
#include "solver/fem/compressed_columns.h"

#include <vector>

namespace throughbend
{
class RowProduct
{
public:
  /// Both must outlive it; the pattern of `matrix` must not change.
  RowProduct(const CompressedColumns &matrix, CellCrew &crew);

  void take(); ///< the values that the matrix has now

  /// y = matrix * x, the same to the last digit whatever the size of the crew.
  void vmult(Vector &y, const Vector &x) const;

private:
  const CompressedColumns &matrix_;
  CellCrew                &crew_;
  std::vector<int>         mirrored_; ///< place of (j, i) for each entry (i, j)
  std::vector<double>      values_;   ///< of row i where column i of the matrix stands
};
} // namespace throughbend
