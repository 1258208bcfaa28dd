#pragma once
// How far the faces of the coupon, and the ram, have gone in sum: a face that was far off a
// tool is looked at again only when it may have come to touch it. Faces are numbered as in
// the model. Lengths in mm. Knows no tools.

#include "solver/fem/coupon_model.h"

#include <vector>

namespace throughbend
{
template <int dim>
class FaceWays
{
public:
  explicit FaceWays(const CouponModel<dim> &model);

  /// Adds what has been gone since the last call, with the nodes at displacements u and the
  /// plunger at `travel`. False where there was none since forget(): nothing is known then.
  bool add(const Vector &u, double travel);
  void forget() { at_.reinit(0); }

  /// At least what any point of a face has gone, and what the ram has, since any one time
  /// is the difference of two of these.
  double of(std::size_t face) const { return way_[face]; }
  double of_ram() const { return ram_way_; }

  const Vector &at() const { return at_; } ///< displacements of the last call [mm]
  double        travel() const { return travel_; }

private:
  const CouponModel<dim> &model_;
  Vector                  at_;
  double                  travel_ = 0, ram_way_ = 0;
  std::vector<double>
      spread_; ///< of each face: a point moves at most that times a node [-]
  std::vector<double> way_;
};
} // namespace throughbend
