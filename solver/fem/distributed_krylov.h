#pragma once
// GMRES on a matrix that several ranks share, by PETSc. The preconditioner is LDL^T of the
// upper triangle, which is symmetric but for friction, by MUMPS; or the two-level cycle of
// rank_cycle.h.

#include "solver/fem/rank_cycle.h"

#include <deal.II/base/index_set.h>

#include <petscksp.h>

#include <string>

namespace throughbend
{
class DistributedKrylov
{
public:
  enum class Factors
  {
    each_anew,
    kept ///< as long as they lead there, those of an earlier matrix
  };

  /// With LDL^T. `tolerance` = residual at which GMRES stops, over the right side's [-].
  DistributedKrylov(double tolerance, MPI_Comm communicator, Factors factors);

  /// With the cycle. `rows` = unknowns that this rank owns. Throws std::runtime_error when
  /// PETSc refuses.
  DistributedKrylov(double tolerance, MPI_Comm communicator, const CoarseSpace &space,
                    const dealii::IndexSet &rows);
  ~DistributedKrylov();
  DistributedKrylov(const DistributedKrylov &)            = delete;
  DistributedKrylov &operator=(const DistributedKrylov &) = delete;

  /// False, on every rank, when it does not get there: a dearer solver may. The pattern of
  /// `matrix` must be that of the first call.
  bool solve(Mat matrix, Vec right, Vec x);

  void forget(); ///< frees what the last solve() left

  std::string name() const;

private:
  bool iterate(Mat matrix, Vec right, Vec x, bool with_old_factors);
  void set_up(Mat matrix);
  bool is_solved(Mat matrix, Vec right, Vec x) const;

  double                     tolerance_;
  MPI_Comm                   communicator_;
  Factors                    factors_;
  std::unique_ptr<RankCycle> cycle_; ///< or LDL^T
  KSP                        solver_ = nullptr;
};
} // namespace throughbend
