#include "solver/fem/rank_sweeps.h"

#include "solver/fem/petsc_check.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace throughbend
{
namespace
{
/// What PETSc holds of a part of a rank's rows, as compressed rows.
class Rows
{
public:
  explicit Rows(Mat part) : part_(part)
  {
    PetscBool there = PETSC_FALSE;
    check_petsc(
        MatGetRowIJ(part_, 0, PETSC_FALSE, PETSC_FALSE, &size_, &starts, &columns, &there),
        "the sweeps");
    check_petsc(MatSeqAIJGetArrayRead(part_, &values), "the sweeps");
  }
  ~Rows()
  {
    PetscBool there = PETSC_FALSE;
    MatSeqAIJRestoreArrayRead(part_, &values);
    MatRestoreRowIJ(part_, 0, PETSC_FALSE, PETSC_FALSE, &size_, &starts, &columns, &there);
  }
  Rows(const Rows &)            = delete;
  Rows &operator=(const Rows &) = delete;

  PetscInt size() const { return size_; }

  const PetscInt    *starts = nullptr, *columns = nullptr;
  const PetscScalar *values = nullptr;

private:
  Mat      part_;
  PetscInt size_ = 0;
};

/// The entries of a vector that this rank owns, to read.
class Entries
{
public:
  explicit Entries(Vec vector) : vector_(vector)
  {
    check_petsc(VecGetArrayRead(vector_, &values_), "the sweeps");
  }
  ~Entries() { VecRestoreArrayRead(vector_, &values_); }
  Entries(const Entries &)            = delete;
  Entries &operator=(const Entries &) = delete;

  double operator[](PetscInt i) const { return values_[i]; }

private:
  Vec                vector_;
  const PetscScalar *values_ = nullptr;
};
} // namespace

void RankSweeps::take(Mat matrix)
{
  Mat others = nullptr;
  check_petsc(MatMPIAIJGetSeqAIJ(matrix, &own_, &others, nullptr), "the sweeps");
  const Rows own(own_), beyond(others);
  diagonal_.resize(static_cast<std::size_t>(own.size()));
  over_diagonal_.resize(diagonal_.size());
  for (PetscInt i = 0; i < own.size(); ++i)
  {
    const PetscInt *const last = own.columns + own.starts[i + 1];
    const PetscInt *const here = std::lower_bound(own.columns + own.starts[i], last, i);
    assert(here != last && *here == i && "the pattern has no diagonal");
    double coupled = 0; // to other ranks
    for (PetscInt k = beyond.starts[i]; k < beyond.starts[i + 1]; ++k)
      coupled += std::abs(beyond.values[k]);
    diagonal_[i]       = static_cast<PetscInt>(here - own.columns);
    const double entry = own.values[diagonal_[i]];
    over_diagonal_[i]  = entry == 0 ? 0. : 1 / (entry + std::copysign(coupled / 2, entry));
  }
}

void RankSweeps::forward(Vec right, Vec x) const
{
  const Rows    own(own_);
  const Entries b(right);
  PetscScalar  *y = nullptr;
  check_petsc(VecGetArrayWrite(x, &y), "the sweeps");
  for (PetscInt i = 0; i < own.size(); ++i)
  {
    double rest = b[i];
    for (PetscInt k = own.starts[i]; k < diagonal_[i]; ++k)
      rest -= own.values[k] * y[own.columns[k]];
    y[i] = rest * over_diagonal_[i];
  }
  check_petsc(VecRestoreArrayWrite(x, &y), "the sweeps");
}

void RankSweeps::backward(Vec right, Vec x) const
{
  const Rows    own(own_);
  const Entries b(right);
  PetscScalar  *y = nullptr;
  check_petsc(VecGetArrayWrite(x, &y), "the sweeps");
  for (PetscInt i = own.size() - 1; i >= 0; --i)
  {
    double rest = b[i];
    for (PetscInt k = diagonal_[i] + 1; k < own.starts[i + 1]; ++k)
      rest -= own.values[k] * y[own.columns[k]];
    y[i] = rest * over_diagonal_[i];
  }
  check_petsc(VecRestoreArrayWrite(x, &y), "the sweeps");
}
} // namespace throughbend
