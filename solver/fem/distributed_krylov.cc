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

/// The cycle as PETSc calls it, which takes no exceptions.
PetscErrorCode apply_cycle(PC preconditioner, Vec right, Vec x)
{
  void *cycle = nullptr;
  if (const PetscErrorCode error = PCShellGetContext(preconditioner, &cycle); error != 0)
    return error;
  try
  {
    static_cast<RankCycle *>(cycle)->apply(right, x);
  }
  catch (const std::exception &)
  {
    return PETSC_ERR_LIB;
  }
  return 0;
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
  cycle_ = std::make_unique<RankCycle>(communicator, space, rows);
}

DistributedKrylov::~DistributedKrylov()
{
  KSPDestroy(&solver_);
}

std::string DistributedKrylov::name() const
{
  return cycle_ == nullptr ? "MUMPS LDL^T + GMRES" : "two-level cycle + GMRES";
}

void DistributedKrylov::forget()
{
  check_petsc(KSPDestroy(&solver_), "the solution");
  if (cycle_ != nullptr)
    cycle_->forget();
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
                               cycle_ == nullptr ? most_iterations : most_cycles),
              "the set-up");
  check_petsc(KSPSetOperators(solver_, matrix, matrix), "the set-up");
  check_petsc(KSPGetPC(solver_, &preconditioner), "the set-up");
  if (cycle_ == nullptr)
  {
    Mat factors = nullptr;
    make_factors(preconditioner);
    check_petsc(PCFactorSetUpMatSolverType(preconditioner), "the set-up");
    check_petsc(PCFactorGetMatrix(preconditioner, &factors), "the set-up");
    check_petsc(MatMumpsSetIcntl(factors, 14, working_space), "the set-up");
  }
  else
  {
    check_petsc(PCSetType(preconditioner, PCSHELL), "the set-up");
    check_petsc(PCShellSetContext(preconditioner, cycle_.get()), "the set-up");
    check_petsc(PCShellSetApply(preconditioner, apply_cycle), "the set-up");
  }
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
  if (cycle_ != nullptr)
    cycle_->take(matrix);
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
