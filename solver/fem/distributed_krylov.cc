#include "solver/fem/distributed_krylov.h"

#include "solver/fem/petsc_check.h"

#include <algorithm>
#include <vector>

namespace throughbend
{
namespace
{
// The cycle may take long; LDL^T that needs so many is no good.
constexpr int most_iterations = 30, most_cycles = 90;

constexpr int working_space = 40; ///< beyond MUMPS's estimate, for pivots put off [%]

/// A residual of this share of the right side shows a singular matrix, whatever GMRES
/// estimates.
constexpr double unsolved = 0.01;

/// One solve with factors; MUMPS makes Cholesky's LDL^T where pivots are negative.
void make_factors(PC factors)
{
  petsc(PCSetType(factors, PCCHOLESKY), "the set-up");
  petsc(PCFactorSetMatSolverType(factors, MATSOLVERMUMPS), "the set-up");
}

/// One sweep of Gauss-Seidel over this rank's unknowns.
void make_smoother(KSP smoother, const MatSORType sweep)
{
  PC sweeps = nullptr;
  petsc(KSPSetType(smoother, KSPRICHARDSON), "the set-up");
  petsc(KSPSetNormType(smoother, KSP_NORM_NONE), "the set-up");
  petsc(KSPGetPC(smoother, &sweeps), "the set-up");
  petsc(PCSetType(sweeps, PCSOR), "the set-up");
  petsc(PCSORSetSymmetric(sweeps, sweep), "the set-up");
}
} // namespace

DistributedKrylov::DistributedKrylov(const double tolerance, MPI_Comm communicator)
    : tolerance_(tolerance), communicator_(communicator)
{
}

DistributedKrylov::DistributedKrylov(const double tolerance, MPI_Comm communicator,
                                     const CoarseSpace &space, const dealii::IndexSet &rows)
    : DistributedKrylov(tolerance, communicator)
{
  constexpr int most_corners = 8; // of a cell
  PetscInt      corners      = 0;
  for (const auto i : rows)
    corners += space.number[i] >= 0 ? 1 : 0;
  petsc(MatCreate(communicator, &prolongation_), "the set-up");
  petsc(MatSetType(prolongation_, MATMPIAIJ), "the set-up"); // on one rank, too
  petsc(MatSetSizes(prolongation_, static_cast<PetscInt>(rows.n_elements()), corners,
                    static_cast<PetscInt>(rows.size()), space.size),
        "the set-up");
  petsc(MatMPIAIJSetPreallocation(prolongation_, most_corners, nullptr, most_corners,
                                  nullptr),
        "the set-up");
  for (const auto i : rows)
  {
    const auto     row   = static_cast<PetscInt>(i);
    const PetscInt first = space.starts[i], n = space.starts[i + 1] - first;
    petsc(MatSetValues(prolongation_, 1, &row, n, space.corner.data() + first,
                       space.weight.data() + first, INSERT_VALUES),
          "the set-up");
  }
  petsc(MatAssemblyBegin(prolongation_, MAT_FINAL_ASSEMBLY), "the set-up");
  petsc(MatAssemblyEnd(prolongation_, MAT_FINAL_ASSEMBLY), "the set-up");
}

DistributedKrylov::~DistributedKrylov()
{
  KSPDestroy(&solver_);
  MatDestroy(&prolongation_);
}

std::string DistributedKrylov::name() const
{
  return prolongation_ == nullptr ? "MUMPS LDL^T + GMRES" : "two-level cycle + GMRES";
}

void DistributedKrylov::forget()
{
  petsc(KSPDestroy(&solver_), "the solution");
}

void DistributedKrylov::set_up(Mat matrix)
{
  PC preconditioner = nullptr;
  petsc(KSPCreate(communicator_, &solver_), "the set-up");
  petsc(KSPSetType(solver_, KSPGMRES), "the set-up");
  petsc(KSPSetPCSide(solver_, PC_RIGHT), "the set-up");
  petsc(KSPGMRESSetRestart(solver_, most_cycles), "the set-up"); // it never begins anew
  petsc(KSPSetTolerances(solver_, tolerance_, PETSC_DEFAULT, PETSC_DEFAULT,
                         prolongation_ == nullptr ? most_iterations : most_cycles),
        "the set-up");
  petsc(KSPSetOperators(solver_, matrix, matrix), "the set-up");
  petsc(KSPGetPC(solver_, &preconditioner), "the set-up");
  if (prolongation_ == nullptr)
  {
    Mat factors = nullptr;
    make_factors(preconditioner);
    petsc(PCFactorSetUpMatSolverType(preconditioner), "the set-up");
    petsc(PCFactorGetMatrix(preconditioner, &factors), "the set-up");
    petsc(MatMumpsSetIcntl(factors, 14, working_space), "the set-up");
  }
  else
    set_up_cycle(preconditioner);
}

void DistributedKrylov::set_up_cycle(PC cycle)
{
  PC  factors = nullptr;
  KSP coarse = nullptr, before = nullptr, after = nullptr;
  petsc(PCSetType(cycle, PCMG), "the set-up");
  petsc(PCMGSetLevels(cycle, 2, nullptr), "the set-up");
  petsc(PCMGSetInterpolation(cycle, 1, prolongation_), "the set-up");
  petsc(PCMGSetGalerkin(cycle, PC_MG_GALERKIN_BOTH), "the set-up");
  petsc(PCMGSetNumberSmooth(cycle, 1), "the set-up");
  petsc(PCMGGetSmootherDown(cycle, 1, &before), "the set-up");
  petsc(PCMGGetSmootherUp(cycle, 1, &after), "the set-up");
  make_smoother(before, SOR_LOCAL_FORWARD_SWEEP);
  make_smoother(after, SOR_LOCAL_BACKWARD_SWEEP);
  petsc(PCMGGetCoarseSolve(cycle, &coarse), "the set-up");
  petsc(KSPSetType(coarse, KSPPREONLY), "the set-up");
  petsc(KSPGetPC(coarse, &factors), "the set-up");
  make_factors(factors);
}

bool DistributedKrylov::solve(Mat matrix, Vec right, Vec x)
{
  if (solver_ == nullptr)
    set_up(matrix);
  KSPConvergedReason reason = KSP_CONVERGED_ITERATING;
  PetscInt           n      = 0;
  petsc(KSPSetOperators(solver_, matrix, matrix), "the set-up");
  petsc(KSPSolve(solver_, right, x), "the solution");
  petsc(KSPGetConvergedReason(solver_, &reason), "the solution");
  petsc(KSPGetIterationNumber(solver_, &n), "the solution");
  iterations_ += n;
  if (reason > 0)
    return is_solved(matrix, right, x);
  forget(); // PETSc goes on refusing after a failure
  return false;
}

bool DistributedKrylov::is_solved(Mat matrix, Vec right, Vec x) const
{
  Vec       rest = nullptr;
  PetscReal left = 0, size = 0;
  petsc(VecDuplicate(right, &rest), "the solution");
  petsc(MatMult(matrix, x, rest), "the solution");
  petsc(VecAXPY(rest, -1., right), "the solution");
  petsc(VecNorm(rest, NORM_2, &left), "the solution");
  petsc(VecNorm(right, NORM_2, &size), "the solution");
  petsc(VecDestroy(&rest), "the solution");
  return left <= unsolved * size; // not where it is NaN
}
} // namespace throughbend
