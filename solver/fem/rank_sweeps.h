#pragma once
// Gauss-Seidel over the unknowns that a rank owns: the smoother of the two-level cycle on
// several ranks. Where two ranks meet each begins with none of what the other does, and
// both may push the same nodes too far. So half the size of what couples an unknown to
// other ranks is added to its diagonal: enough for sweeps never to diverge on a positive
// definite matrix (Baker, Falgout, Kolev & Yang 2011, SIAM J. Sci. Comput. 33,
// 2864, l1-smoothers; from memory). Holds no entries but the diagonal's.

#include <petscmat.h>

#include <vector>

namespace throughbend
{
class RankSweeps
{
public:
  /// Of a matrix by rows (MATMPIAIJ), which must stay there as it is. An unknown whose
  /// diagonal is 0 is left out. Throws std::runtime_error when PETSc refuses.
  void take(Mat matrix);

  void forward(Vec right, Vec x) const;  ///< x = (L + D)^-1 right
  void backward(Vec right, Vec x) const; ///< x = (D + U)^-1 right

private:
  Mat                   own_ = nullptr; ///< columns of this rank's unknowns
  std::vector<PetscInt> diagonal_;      ///< places in it
  std::vector<double>   over_diagonal_; ///< 1 / what stands there with what is added
};
} // namespace throughbend
