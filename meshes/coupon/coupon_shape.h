#pragma once
// The coupon's true shape: lines of the mesh that lean with the fusion lines, flaws along
// them, caps left on the weld, a taper of the thickness. A straight grid is turned into the
// flat coupon with leaning lines, and that into the coupon as it is. Cuts no cells and
// makes no mesh.

#include "inputs/case/case.h"
#include "meshes/coupon/seam.h"
#include "meshes/coupon/weld_shape.h"

#include <limits>
#include <optional>
#include <vector>

namespace throughbend
{
/// Which half or whole of the coupon is modelled.
enum class Extent
{
  half, ///< x >= 0, mirrored at the plunger's centre line
  full
};

/// Half when everything is the same left and right and the user did not ask for the full
/// one. A flaw may lie in the plane of symmetry.
Extent model_extent(const Case &c);

/// x along where the flat coupon lies, y from the convex face, z across from the mid-plane
/// [mm].
struct CouponPoint
{
  double x = 0, y = 0, z = 0;
};

/// A line that the mesh has through the plate. A leaning one keeps its distance from the
/// fusion line of its flank.
struct MeshLine
{
  double               grid = 0;     ///< its place on the straight grid [mm]
  std::optional<Flank> flank;        ///< leaning, or else upright at `grid`
  double               distance = 0; ///< from the fusion line [mm]
  double cell     = std::numeric_limits<double>::infinity(); ///< wished size beside it [mm]
  double tip_cell = std::numeric_limits<double>::infinity(); ///< the same for a flaw on it
};

/// Distances from the fusion line between which strength goes straight from that of one
/// zone to that of the next [mm].
struct StrengthSteps
{
  double weld_ends = 0, haz_begins = 0, haz_ends = 0, base_begins = 0;
};
StrengthSteps strength_steps(const Weld &weld, double plate);

/// Where a weld's zones follow each other: along x, or in a longitudinal bend along z; and
/// where its depth runs: along y, in a side bend along z.
class CouponShape
{
public:
  /// `scale` = cells wished, over those of the standard mesh [-].
  CouponShape(const Case &c, Extent extent, double scale = 1);

  const std::vector<MeshLine> &lines() const { return lines_; }        ///< across the zones
  double              line(const MeshLine &line, double height) const; ///< its place [mm]
  std::vector<double> levels() const; ///< heights where lines turn, ends included [mm]
  const std::vector<Seam> &seams() const { return seams_; }

  /// A line asks for cells beside it.
  bool has_narrow_cells() const;

  /// The straight grid is the coupon already.
  bool straight() const
  {
    return !leaning_ && !gaping_ && taper_ == 0 && top_.height == 0 && bottom_.height == 0;
  }
  bool zones_along_x() const { return run_ == WeldRun::transverse; }
  bool depth_along_y() const { return bend_ != BendKind::side; }

  CouponPoint
  leaned(const CouponPoint &grid) const; ///< from the straight grid to the flat coupon
  /// From the flat coupon to that with open flaws, for a corner of a cell on the given side
  /// of each line that it lies on.
  CouponPoint parted(const CouponPoint &grid, Flank cell_side,
                     const CouponPoint &flat) const;
  CouponPoint
  shaped(const CouponPoint &flat) const; ///< from the flat coupon to the coupon as it is
  CouponPoint flattened(const CouponPoint &shaped) const; ///< the way back

  /// Of the concave and convex face off those of the flat coupon [mm].
  double top(double x) const;    ///< cap and taper, > 0 outward
  double bottom(double x) const; ///< cap, < 0 outward

  /// Distance from the fusion line of a spot of the flat coupon [mm]; far without a weld.
  double from_fusion(const CouponPoint &flat) const;
  int    zone(const CouponPoint &flat) const; ///< 0 base, 1 HAZ, 2 weld

private:
  double                across(const CouponPoint &s) const;
  double                height(const CouponPoint &s) const;
  double                taper(double x) const;
  void                  add_lines(const Case &c, Extent extent, double scale);
  void                  add_seams(const Case &c, double scale);
  double                lean(const MeshLine &line) const;
  std::vector<MeshLine> wanted(const Weld &weld, double scale) const;

  /// Crown and toes of what stands above one face.
  struct Crown
  {
    double width = 0, height = 0, toe = 0;  ///< [mm]
    double above(double from_centre) const; ///< [mm]
    double end() const;                     ///< of the rounded toe from the centre [mm]
  };

  double                length_, thickness_, width_, offset_, taper_, centre_;
  bool                  weld_, leaning_ = false, gaping_ = false;
  WeldRun               run_;
  BendKind              bend_;
  WeldShape             section_;
  Crown                 top_, bottom_;
  std::vector<MeshLine> lines_;
  std::vector<Seam>     seams_;
};
} // namespace throughbend
