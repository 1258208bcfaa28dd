#pragma once
// Reads shapes and strains off a displaced coupon: legs, ends, strain along the faces.
// Works on whole vectors, so every rank gets the same numbers without talking.

#include "meshes/setup/fixture_profiles.h"
#include "solver/fem/coupon_model.h"
#include "solver/outcome/pass_sample.h"
#include "solver/outcome/surface_row.h"

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

/// Uses the nodes of the mid-plane (z = 0) in 3D where nothing else is said.
template <int dim>
class CouponProbe
{
public:
  CouponProbe(const CouponModel<dim> &model, const PlacedCoupon &coupon);

  /// Leg on one side, by its mid-line between 75 % and 94 % of the half length, where it
  /// stays straight. A half model's left leg is its right one, mirrored.
  Leg leg(const Vector &u, Side side) const;

  /// Along one face, from left to right, at the two points per cell where the derivative of
  /// a quadratic interpolation is most accurate (Barlow 1976, Int. J. Numer. Methods Eng.
  /// 10, 243).
  std::vector<FaceStrain> face_strains(const Vector &u, Face face,
                                       std::size_t line = 0) const;

  /// Lines of nodes that run along the coupon, by their distance from the mid-plane of the
  /// flat coupon, ascending [mm]: the first at mid-width, the last at the free edge. One
  /// in a plane model.
  const std::vector<double> &lines() const { return lines_; }
  /// Where a line really runs on the convex face, from the mid-plane of the flat coupon:
  /// beside a longitudinal weld that leans, not where it runs at half the thickness [mm].
  double convex_across(std::size_t line) const { return convex_across_[line]; }
  double offset() const { return offset_; } ///< of the coupon from the plunger centre [mm]

  /// How wide a face is at the place that is now nearest to the plunger's centre line, and
  /// how far its free edge stands there beyond the mid-width, square to the face and away
  /// from the centre of the bend: the way that a bent bar curls. 3D only.
  struct Section
  {
    double width = 0; ///< [mm]
    double curl  = 0; ///< [mm]
  };
  Section section(const Vector &u, Face face) const;

  /// Around the whole coupon, counter-clockwise from the left end of the convex face: nodes
  /// of both faces, ends straight. Of a half model the mirrored half belongs to it.
  std::vector<PlaneVector> outline(const Vector &u) const;

  /// Of each flaw, in their order; empty without any.
  std::vector<LipGap> flaw_gaps(const Vector &u) const;

  /// Turn of the mid-line under the plunger, counter-clockwise [deg]: of the coupon as a
  /// whole.
  double tilt(const Vector &u) const;
  double walk(const Vector &u) const;        ///< sideways motion of the middle [mm]
  double outermost_x(const Vector &u) const; ///< largest |x| of any node now [mm]
  double highest_y(const Vector &u) const;   ///< of the ends' corners [mm]

private:
  struct Station
  {
    double   position = 0; ///< x on the flat coupon in place [mm]
    double   height   = 0; ///< y on the flat coupon in place [mm]
    unsigned x_dof = 0, y_dof = 0;
    unsigned z_dof = 0; ///< 3D
  };
  using Row = std::vector<Station>;
  /// A place at half the thickness: a node, or between the three nodes of a column where
  /// no row of nodes runs at that height (a flaw's tip near it takes its row away).
  struct MidPlace
  {
    double                  position = 0; ///< x on the flat coupon in place [mm]
    double                  height   = 0; ///< y on the flat coupon in place [mm]
    std::array<unsigned, 3> x_dof{}, y_dof{};
    std::array<double, 3>   share{}; ///< of each node, from below, sum 1 [-]

    unsigned nearest() const; ///< x unknown of the node with the largest share
  };
  /// The three nodes of a cell along a face. Neighbours share one, but not across a flaw.
  using Edge = std::array<Station, 3>;
  static bool left_of(const Station &a, const Station &b);
  void        find_middle(const PlacedCoupon &coupon);
  void        find_lines(double close);
  std::size_t line_at(double across) const;
  PlaneVector place(const Station &station, const Vector &u) const;
  PlaneVector place(const MidPlace &mid, const Vector &u) const;
  PlaneVector middle_at(double position, const Vector &u) const;

  const CouponModel<dim>        &model_;
  bool                           half_;
  double                         length_, offset_; ///< of the coupon [mm]
  Row                            convex_, concave_;
  std::vector<MidPlace>          middle_;
  std::vector<double>            lines_, convex_across_;        ///< [mm]
  std::vector<std::vector<Edge>> convex_edges_, concave_edges_; ///< of each line
};
} // namespace throughbend
