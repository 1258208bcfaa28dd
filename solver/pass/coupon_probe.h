#pragma once
// Reads shapes and strains off a displaced coupon: legs, ends, strain along the faces.
// Works on whole vectors, so every rank gets the same numbers without talking.

#include "meshes/fixture_profiles.h"
#include "solver/fem/coupon_model.h"
#include "solver/pass/pass_sample.h"
#include "solver/pass/surface_row.h"

#include <array>
#include <vector>

namespace throughbend
{
/// Strain along a face at one place.
struct FaceStrain
{
  double position = 0; ///< along the flat coupon from its centre [mm]
  double x = 0, y = 0; ///< where it is now [mm]
  double strain = 0;   ///< logarithmic, along the face [-]
};

/// Uses the nodes of the mid-plane (z = 0) in 3D.
template <int dim>
class CouponProbe
{
public:
  CouponProbe(const CouponModel<dim> &model, const Case &c);

  /// Leg on one side, by its mid-line between 75 % and 94 % of the half length, where it
  /// stays straight. A half model's left leg is its right one, mirrored.
  Leg leg(const Vector &u, Side side) const;

  /// Along one face, from left to right, at the two points per cell where the derivative of
  /// a quadratic interpolation is most accurate (Barlow 1976, Int. J. Numer. Methods Eng.
  /// 10, 243).
  std::vector<FaceStrain> face_strains(const Vector &u, Face face) const;

  /// Of each flaw, in their order; empty without any.
  std::vector<LipGap> flaw_gaps(const Vector &u) const;

  double walk(const Vector &u) const;        ///< sideways motion of the middle [mm]
  double outermost_x(const Vector &u) const; ///< largest |x| of any node now [mm]
  double highest_y(const Vector &u) const;   ///< of the ends' corners [mm]

private:
  struct Station
  {
    double   position = 0; ///< x on the flat coupon in place [mm]
    double   height   = 0; ///< y on the flat coupon in place [mm]
    unsigned x_dof = 0, y_dof = 0;
  };
  using Row = std::vector<Station>;
  /// The three nodes of a cell along a face. Neighbours share one, but not across a flaw.
  using Edge = std::array<Station, 3>;
  static bool left_of(const Station &a, const Station &b);
  Vec2        place(const Station &station, const Vector &u) const;
  Vec2        place_at(const Row &row, double position, const Vector &u) const;

  const CouponModel<dim> &model_;
  bool                    half_;
  double                  length_, offset_; ///< of the coupon [mm]
  Row                     convex_, middle_, concave_;
  std::vector<Edge>       convex_edges_, concave_edges_;
};
} // namespace throughbend
