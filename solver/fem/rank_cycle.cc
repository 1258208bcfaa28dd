#include "solver/fem/rank_cycle.h"

#include "solver/fem/petsc_check.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr int most_corners = 8; // of a cell

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

/// The entries of a vector that this rank owns.
std::vector<double> entries(Vec vector)
{
  const PetscScalar *first = nullptr;
  PetscInt           n     = 0;
  check_petsc(VecGetLocalSize(vector, &n), "the sweeps");
  check_petsc(VecGetArrayRead(vector, &first), "the sweeps");
  std::vector<double> copy(first, first + n);
  check_petsc(VecRestoreArrayRead(vector, &first), "the sweeps");
  return copy;
}

void set_entries(Vec vector, const std::vector<double> &values)
{
  PetscScalar *first = nullptr;
  check_petsc(VecGetArrayWrite(vector, &first), "the sweeps");
  std::copy(values.begin(), values.end(), first);
  check_petsc(VecRestoreArrayWrite(vector, &first), "the sweeps");
}

Mat prolongation(MPI_Comm communicator, const CoarseSpace &space,
                 const dealii::IndexSet &rows)
{
  Mat      matrix  = nullptr;
  PetscInt corners = 0;
  for (const auto i : rows)
    corners += space.number[i] >= 0 ? 1 : 0;
  check_petsc(MatCreate(communicator, &matrix), "the set-up");
  check_petsc(MatSetType(matrix, MATMPIAIJ), "the set-up"); // on one rank, too
  check_petsc(MatSetSizes(matrix, static_cast<PetscInt>(rows.n_elements()), corners,
                          static_cast<PetscInt>(rows.size()), space.size),
              "the set-up");
  check_petsc(
      MatMPIAIJSetPreallocation(matrix, most_corners, nullptr, most_corners, nullptr),
      "the set-up");
  for (const auto i : rows)
  {
    const auto     row   = static_cast<PetscInt>(i);
    const PetscInt first = space.starts[i], n = space.starts[i + 1] - first;
    check_petsc(MatSetValues(matrix, 1, &row, n, space.corner.data() + first,
                             space.weight.data() + first, INSERT_VALUES),
                "the set-up");
  }
  check_petsc(MatAssemblyBegin(matrix, MAT_FINAL_ASSEMBLY), "the set-up");
  check_petsc(MatAssemblyEnd(matrix, MAT_FINAL_ASSEMBLY), "the set-up");
  return matrix;
}
} // namespace

RankCycle::RankCycle(MPI_Comm communicator, const CoarseSpace &space,
                     const dealii::IndexSet &rows)
    : communicator_(communicator), sweeps_(make_node_triangle(space.per_node)),
      prolongation_(prolongation(communicator, space, rows))
{
  check_petsc(MatCreateVecs(prolongation_, &coarse_x_, &fine_), "the set-up");
  check_petsc(VecDuplicate(coarse_x_, &coarse_right_), "the set-up");
}

RankCycle::~RankCycle()
{
  KSPDestroy(&factors_);
  MatDestroy(&coarse_);
  MatDestroy(&prolongation_);
  VecScatterDestroy(&fetch_);
  for (Vec *each : {&fine_, &coarse_right_, &coarse_x_, &theirs_, &product_})
    VecDestroy(each);
}

void RankCycle::forget()
{
  check_petsc(KSPDestroy(&factors_), "the solution");
}

void RankCycle::find_others(Mat matrix, const PetscInt *numbers, const PetscInt n)
{
  IS which = nullptr;
  check_petsc(MatCreateVecs(others_, &theirs_, &product_), "the set-up");
  check_petsc(ISCreateGeneral(PETSC_COMM_SELF, n, numbers, PETSC_COPY_VALUES, &which),
              "the set-up");
  check_petsc(VecScatterCreate(fine_, which, theirs_, nullptr, &fetch_), "the set-up");
  check_petsc(ISDestroy(&which), "the set-up");
  check_petsc(MatPtAP(matrix, prolongation_, MAT_INITIAL_MATRIX, PETSC_DEFAULT, &coarse_),
              "the set-up");
}

void RankCycle::take(Mat matrix)
{
  Mat             own     = nullptr;
  const PetscInt *numbers = nullptr;
  PetscInt        rows = 0, n = 0;
  check_petsc(MatMPIAIJGetSeqAIJ(matrix, &own, &others_, &numbers), "the sweeps");
  check_petsc(MatGetSize(others_, &rows, &n), "the sweeps");
  if (coarse_ == nullptr)
    find_others(matrix, numbers, n);
  else
    check_petsc(MatPtAP(matrix, prolongation_, MAT_REUSE_MATRIX, PETSC_DEFAULT, &coarse_),
                "the set-up");
  take_sweeps(own, others_);
  if (factors_ == nullptr)
  {
    PC cholesky = nullptr;
    check_petsc(KSPCreate(communicator_, &factors_), "the set-up");
    check_petsc(KSPSetType(factors_, KSPPREONLY), "the set-up");
    check_petsc(KSPGetPC(factors_, &cholesky), "the set-up");
    check_petsc(PCSetType(cholesky, PCCHOLESKY), "the set-up");
    check_petsc(PCFactorSetMatSolverType(cholesky, MATSOLVERMUMPS), "the set-up");
  }
  check_petsc(KSPSetOperators(factors_, coarse_, coarse_), "the set-up");
}

void RankCycle::take_sweeps(Mat own_part, Mat others)
{
  const Rows            own(own_part), beyond(others);
  const auto            n = static_cast<std::size_t>(own.size());
  std::vector<PetscInt> diagonal(n);
  std::vector<double>   add(n);
  for (PetscInt i = 0; i < own.size(); ++i)
  {
    const PetscInt *const last = own.columns + own.starts[i + 1];
    const PetscInt *const here = std::lower_bound(own.columns + own.starts[i], last, i);
    assert(here != last && *here == i && "the pattern has no diagonal");
    double coupled = 0; // to other ranks
    for (PetscInt k = beyond.starts[i]; k < beyond.starts[i + 1]; ++k)
      coupled += std::abs(beyond.values[k]);
    diagonal[i] = static_cast<PetscInt>(here - own.columns);
    add[i]      = std::copysign(coupled / 2, own.values[diagonal[i]]);
  }
  sweeps_->take({own.size(), diagonal.data(), own.starts + 1, own.columns, own.values},
                add);
}

void RankCycle::subtract_others(const std::vector<double> &x, std::vector<double> &rest)
{
  set_entries(fine_, x);
  check_petsc(VecScatterBegin(fetch_, fine_, theirs_, INSERT_VALUES, SCATTER_FORWARD),
              "the sweeps");
  check_petsc(VecScatterEnd(fetch_, fine_, theirs_, INSERT_VALUES, SCATTER_FORWARD),
              "the sweeps");
  check_petsc(MatMult(others_, theirs_, product_), "the sweeps");
  const std::vector<double> more = entries(product_);
  for (std::size_t i = 0; i < rest.size(); ++i)
    rest[i] -= more[i];
}

std::vector<double> RankCycle::coarse_correction(const std::vector<double> &rest)
{
  set_entries(fine_, rest);
  check_petsc(MatMultTranspose(prolongation_, fine_, coarse_right_), "the solution");
  check_petsc(KSPSolve(factors_, coarse_right_, coarse_x_), "the solution");
  check_petsc(MatMult(prolongation_, coarse_x_, fine_), "the solution");
  return entries(fine_);
}

void RankCycle::apply(Vec right, Vec x)
{
  std::vector<double>       rest  = entries(right);
  const std::vector<double> ahead = sweeps_->forward(rest);
  subtract_others(ahead, rest);
  const std::vector<double> correction = coarse_correction(rest);
  sweeps_->subtract_product(correction, rest);
  subtract_others(correction, rest);
  sweeps_->backward(rest);
  for (std::size_t i = 0; i < rest.size(); ++i)
    rest[i] += ahead[i] + correction[i];
  set_entries(x, rest);
}
} // namespace throughbend
