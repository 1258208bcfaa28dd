#pragma once
// The two-level cycle of two_level_factor.h on a matrix that several ranks share: sweeps on
// each rank's own unknowns, forward before and backward after a correction from linear
// displacements, whose matrix P^T A P gets LDL^T of all ranks by MUMPS.
//
// Where two ranks meet each sweep begins with none of what the other rank does, and both
// may push the same nodes too far. So half the size of what couples an unknown to other
// ranks is added to its diagonal in the sweeps: enough for them never to diverge on a
// positive definite matrix (Baker, Falgout, Kolev & Yang 2011, SIAM J. Sci. Comput. 33,
// 2864, l1-smoothers; from memory).

#include "solver/fem/coarse_space.h"
#include "solver/fem/node_triangle.h"

#include <deal.II/base/index_set.h>

#include <petscksp.h>

#include <memory>
#include <vector>

namespace throughbend
{
class RankCycle
{
public:
  /// `rows` = unknowns that this rank owns. Throws std::runtime_error when PETSc refuses,
  /// as all members do.
  RankCycle(MPI_Comm communicator, const CoarseSpace &space, const dealii::IndexSet &rows);
  ~RankCycle();
  RankCycle(const RankCycle &)            = delete;
  RankCycle &operator=(const RankCycle &) = delete;

  /// Of a matrix by rows (MATMPIAIJ), symmetric but for little, which must stay there as it
  /// is. Its pattern must be that of the first call.
  void take(Mat matrix);

  void apply(Vec right, Vec x); ///< x = one cycle from 0 for a right side

  void forget(); ///< frees the factors

private:
  /// What the part of a rank's rows that other ranks' unknowns have does to `rest`.
  void subtract_others(const std::vector<double> &x, std::vector<double> &rest);
  void take_sweeps(Mat own, Mat others);
  void find_others(Mat matrix, const PetscInt *numbers, PetscInt n);
  std::vector<double> coarse_correction(const std::vector<double> &rest);

  MPI_Comm                      communicator_;
  std::unique_ptr<NodeTriangle> sweeps_;
  Mat                           prolongation_ = nullptr;             ///< P, by rows
  Mat                           coarse_       = nullptr;             ///< P^T A P
  KSP                           factors_      = nullptr;             ///< of it
  Vec fine_ = nullptr, coarse_right_ = nullptr, coarse_x_ = nullptr; ///< scratch
  // Other ranks' unknowns in this rank's rows: those columns, and their values.
  Mat        others_ = nullptr;
  VecScatter fetch_  = nullptr;
  Vec        theirs_ = nullptr, product_ = nullptr;
};
} // namespace throughbend
