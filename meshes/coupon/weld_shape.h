#pragma once
// The weld's section through the plate as lines: where the fusion lines run, how far a
// point is from them, which zone it lies in, and outlines to draw. Pure geometry of the
// flat, flush plate; knows no mesh, no strength, and nothing of caps.
//
// Each flank of the weld is the outer hull of one or two straight pieces (a prepared face
// and its root face), so the heat-affected band's edge, at constant distance from the
// fusion line on the base plate's side, is the hull of the same pieces moved outward.

#include "inputs/case/coupon.h"
#include "meshes/tools/rigid_profile.h"

#include <vector>

namespace throughbend
{
enum class Flank
{
  left,
  right
};

/// One zone of the section, counter-clockwise, closed by its first point.
struct ZoneOutline
{
  int                      zone = 0; ///< as in WeldShape::zone
  std::vector<PlaneVector> points;   ///< x across the weld, y = height [mm]
};

/// Section of a weld. `across` is measured from the weld's centre (the middle of its gap),
/// `height` from the surface that is the convex one in a face or root bend, in a side bend
/// from the root.
class WeldShape
{
public:
  /// `plate` = thickness of the welded plate [mm]: the coupon's, in a side bend its width.
  WeldShape(const Weld &weld, double plate);

  /// Place across of the line at a distance outside (> 0) or inside the fusion line [mm].
  double line(Flank flank, double height, double distance) const;

  /// From the nearer fusion line [mm], < 0 in the weld metal.
  double distance(double across, double height) const;

  int zone(double across, double height) const; ///< 0 base, 1 HAZ, 2 weld

  /// The distance whose line goes through a place on a flank: the inverse of line() [mm].
  double distance_on(Flank flank, double across, double height) const;

  std::vector<double> corners() const;   ///< heights where a fusion line turns [mm]
  double              narrowest() const; ///< width of the weld metal [mm]
  double              plate() const { return plate_; }

  /// Weld first, then the heat-affected bands, left and right.
  std::vector<ZoneOutline> outlines() const;

private:
  /// Straight piece across = start + slope height, on the right flank.
  struct Piece
  {
    double start = 0, slope = 0;
    double distance(double across, double height) const;
  };
  const std::vector<Piece> &pieces(Flank flank) const
  {
    return flank == Flank::left ? left_ : right_;
  }

  double             plate_, haz_;
  bool               metal_;
  std::vector<Piece> left_, right_; ///< the left flank mirrored
};

/// The plate that was welded: the thickness of the coupon, in a side bend its width [mm].
inline double plate_thickness(const Weld &weld, const Coupon &coupon)
{
  return weld.bend == BendKind::side ? coupon.width : coupon.thickness;
}
} // namespace throughbend
