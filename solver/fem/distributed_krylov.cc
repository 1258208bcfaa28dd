#include "solver/fem/distributed_krylov.h"

#include "solver/fem/gmres_limits.h"
#include "solver/fem/petsc_check.h"

#include <exception>

namespace throughbend
{
namespace
{
constexpr int working_space = 40; ///< beyond MUMPS's estimate, for pivots put off [%]

/// One solve with factors; MUMPS makes Cholesky's LDL^T where pivots are negative.
void make_factors(PC factors)
{
  check_petsc(PCSetType(factors, PCCHOLESKY), "the set-up");
  check_petsc(PCFactorSetMatSolverType(factors, MATSOLVERMUMPS), "the set-up");
}

/// Gauss-Seidel as PETSc calls it, which takes no exceptions.
template <void (RankSweeps::*sweep)(Vec right, Vec x) const>
PetscErrorCode apply(PC smoother, Vec right, Vec x)
{
  void *sweeps = nullptr;
  if (const PetscErrorCode error = PCShellGetContext(smoother, &sweeps); error != 0)
    return error;
  try
  {
    (static_cast<const RankSweeps *>(sweeps)->*sweep)(right, x);
  }
  catch (const std::exception &)
  {
    return PETSC_ERR_LIB;
  }
  return 0;
}

void make_smoother(KSP smoother, RankSweeps &sweeps,
                   PetscErrorCode (*sweep)(PC smoother, Vec right, Vec x))
{
  PC shell = nullptr;
  check_petsc(KSPSetType(smoother, KSPRICHARDSON), "the set-up");
  check_petsc(KSPSetNormType(smoother, KSP_NORM_NONE), "the set-up");
  check_petsc(KSPGetPC(smoother, &shell), "the set-up");
  check_petsc(PCSetType(shell, PCSHELL), "the set-up");
  check_petsc(PCShellSetContext(shell, &sweeps), "the set-up");
  check_petsc(PCShellSetApply(shell, sweep), "the set-up");
}
} // namespace

DistributedKrylov::DistributedKrylov(const double tolerance, MPI_Comm communicator,
                                     const Factors factors)
    : tolerance_(tolerance), communicator_(communicator), factors_(factors)
{
}

DistributedKrylov::DistributedKrylov(const double tolerance, MPI_Comm communicator,
                                     const CoarseSpace &space, const dealii::IndexSet &rows)
    : DistributedKrylov(tolerance, communicator, Factors::each_anew)
{
  constexpr int most_corners = 8; // of a cell
  PetscInt      corners      = 0;
  for (const auto i : rows)
    corners += space.number[i] >= 0 ? 1 : 0;
  check_petsc(MatCreate(communicator, &prolongation_), "the set-up");
  check_petsc(MatSetType(prolongation_, MATMPIAIJ), "the set-up"); // on one rank, too
  check_petsc(MatSetSizes(prolongation_, static_cast<PetscInt>(rows.n_elements()), corners,
                          static_cast<PetscInt>(rows.size()), space.size),
              "the set-up");
  check_petsc(MatMPIAIJSetPreallocation(prolongation_, most_corners, nullptr, most_corners,
                                        nullptr),
              "the set-up");
  for (const auto i : rows)
  {
    const auto     row   = static_cast<PetscInt>(i);
    const PetscInt first = space.starts[i], n = space.starts[i + 1] - first;
    check_petsc(MatSetValues(prolongation_, 1, &row, n, space.corner.data() + first,
                             space.weight.data() + first, INSERT_VALUES),
                "the set-up");
  }
  check_petsc(MatAssemblyBegin(prolongation_, MAT_FINAL_ASSEMBLY), "the set-up");
  check_petsc(MatAssemblyEnd(prolongation_, MAT_FINAL_ASSEMBLY), "the set-up");
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
  check_petsc(KSPDestroy(&solver_), "the solution");
}

void DistributedKrylov::set_up(Mat matrix)
{
  PC preconditioner = nullptr;
  check_petsc(KSPCreate(communicator_, &solver_), "the set-up");
  check_petsc(KSPSetType(solver_, KSPGMRES), "the set-up");
  check_petsc(KSPSetPCSide(solver_, PC_RIGHT), "the set-up");
  check_petsc(KSPGMRESSetRestart(solver_, most_cycles),
              "the set-up"); // it never begins anew
  check_petsc(KSPSetTolerances(solver_, tolerance_, PETSC_DEFAULT, PETSC_DEFAULT,
                               prolongation_ == nullptr ? most_iterations : most_cycles),
              "the set-up");
  check_petsc(KSPSetOperators(solver_, matrix, matrix), "the set-up");
  check_petsc(KSPGetPC(solver_, &preconditioner), "the set-up");
  if (prolongation_ == nullptr)
  {
    Mat factors = nullptr;
    make_factors(preconditioner);
    check_petsc(PCFactorSetUpMatSolverType(preconditioner), "the set-up");
    check_petsc(PCFactorGetMatrix(preconditioner, &factors), "the set-up");
    check_petsc(MatMumpsSetIcntl(factors, 14, working_space), "the set-up");
  }
  else
    set_up_cycle(preconditioner);
}

void DistributedKrylov::set_up_cycle(PC cycle)
{
  PC  factors = nullptr;
  KSP coarse = nullptr, before = nullptr, after = nullptr;
  check_petsc(PCSetType(cycle, PCMG), "the set-up");
  check_petsc(PCMGSetLevels(cycle, 2, nullptr), "the set-up");
  check_petsc(PCMGSetInterpolation(cycle, 1, prolongation_), "the set-up");
  check_petsc(PCMGSetGalerkin(cycle, PC_MG_GALERKIN_BOTH), "the set-up");
  check_petsc(PCMGSetNumberSmooth(cycle, 1), "the set-up");
  check_petsc(PCMGGetSmootherDown(cycle, 1, &before), "the set-up");
  check_petsc(PCMGGetSmootherUp(cycle, 1, &after), "the set-up");
  make_smoother(before, sweeps_, apply<&RankSweeps::forward>);
  make_smoother(after, sweeps_, apply<&RankSweeps::backward>);
  check_petsc(PCMGGetCoarseSolve(cycle, &coarse), "the set-up");
  check_petsc(KSPSetType(coarse, KSPPREONLY), "the set-up");
  check_petsc(KSPGetPC(coarse, &factors), "the set-up");
  make_factors(factors);
}

bool DistributedKrylov::solve(Mat matrix, Vec right, Vec x)
{
  const bool has_factors = solver_ != nullptr && factors_ == Factors::kept;
  return (has_factors && iterate(matrix, right, x, true)) ||
         iterate(matrix, right, x, false);
}

bool DistributedKrylov::iterate(Mat matrix, Vec right, Vec x, const bool with_old_factors)
{
  if (solver_ == nullptr)
    set_up(matrix);
  KSPConvergedReason reason = KSP_CONVERGED_ITERATING;
  check_petsc(
      KSPSetReusePreconditioner(solver_, with_old_factors ? PETSC_TRUE : PETSC_FALSE),
      "the set-up");
  check_petsc(KSPSetOperators(solver_, matrix, matrix), "the set-up");
  if (prolongation_ != nullptr)
    sweeps_.take(matrix);
  check_petsc(KSPSolve(solver_, right, x), "the solution");
  check_petsc(KSPGetConvergedReason(solver_, &reason), "the solution");
  if (reason > 0 && is_solved(matrix, right, x))
    return true;
  forget(); // PETSc goes on refusing after a failure
  return false;
}

bool DistributedKrylov::is_solved(Mat matrix, Vec right, Vec x) const
{
  Vec       rest = nullptr;
  PetscReal left = 0, size = 0;
  check_petsc(VecDuplicate(right, &rest), "the solution");
  check_petsc(MatMult(matrix, x, rest), "the solution");
  check_petsc(VecAXPY(rest, -1., right), "the solution");
  check_petsc(VecNorm(rest, NORM_2, &left), "the solution");
  check_petsc(VecNorm(right, NORM_2, &size), "the solution");
  check_petsc(VecDestroy(&rest), "the solution");
  return left <= unsolved * size; // not where it is NaN
}
} // namespace throughbend
