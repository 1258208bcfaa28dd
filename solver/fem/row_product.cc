#include "solver/fem/row_product.h"

#include <cassert>

namespace throughbend
{
RowProduct::RowProduct(const CompressedColumns &matrix, CellCrew &crew)
    : matrix_(matrix), crew_(crew), values_(matrix.rows().size())
{
  // Entries stand column by column, so those of each row come one after the other.
  std::vector<int> next(matrix.starts());
  for (const int row : matrix.rows())
    mirrored_.push_back(next[static_cast<std::size_t>(row)]++);
}

void RowProduct::take()
{
  const double *const from     = matrix_.values().data();
  const int *const    mirrored = mirrored_.data();
  double *const       to       = values_.data();
  const std::size_t   n = values_.size(), parts = crew_.size();
  crew_.each(parts,
             [=](std::size_t part)
             {
               for (std::size_t k = n * part / parts; k < n * (part + 1) / parts; ++k)
                 to[k] = from[mirrored[k]];
             });
}

void RowProduct::vmult(Vector &y, const Vector &x) const
{
  assert(x.size() == y.size() && static_cast<int>(x.size()) == matrix_.size());
  const int *const starts = matrix_.starts().data(), *const columns = matrix_.rows().data();
  const double *const values = values_.data(), *const from = x.begin();
  double *const     to = y.begin();
  const std::size_t n = x.size(), parts = crew_.size();
  crew_.each(parts,
             [=](std::size_t part)
             {
               for (std::size_t i = n * part / parts; i < n * (part + 1) / parts; ++i)
               {
                 double sum = 0;
                 for (int k = starts[i]; k < starts[i + 1]; ++k)
                   sum += values[k] * from[columns[k]];
                 to[i] = sum;
               }
             });
}
} // namespace throughbend
