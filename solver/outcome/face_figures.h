#pragma once
// What a researcher reads off the convex face of a bent coupon: how far each zone of a weld
// is stretched and where, over which length the coupon is bent and whether the weld lies
// within it, how much of each zone's ductility is used. Made from the rows of surface.csv
// and the weld's geometry alone; judges nothing.
//
// Lengths run along the flat coupon's convex face, from the coupon's centre, right > 0
// [mm]. An elongation is exp(log strain) - 1 [-]. NaN: not known, or there is no such
// thing.

#include "meshes/coupon/coupon_shape.h"
#include "meshes/coupon/face_zones.h"
#include "solver/outcome/surface_row.h"

#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
constexpr double unknown_figure = std::numeric_limits<double>::quiet_NaN();

/// What a zone is said to bear, and by which test.
struct DuctilityLimit
{
  enum class Measure
  {
    elongation,  ///< at fracture in tension: a mean over a gauge with the neck in it
    local_strain ///< log strain at a point
  };
  Measure measure = Measure::elongation;
  double  value   = 0; ///< [-]
};
std::string to_text(DuctilityLimit::Measure measure);

/// The limit strain of the zone's metal if it is stated, else its elongation, else nothing.
std::optional<DuctilityLimit> ductility_limit(const Case &c, FaceZone zone);

/// The zones that are told apart: both sides of the base plate together.
std::string zone_words(FaceZone zone); ///< "base plate", "HAZ", "weld", for sentences
std::string zone_name(FaceZone zone);  ///< "base", "left_haz", "weld", "right_haz"

/// A largest strain and where it is.
struct FacePeak
{
  FaceZone zone        = FaceZone::left_base;
  double   strain      = unknown_figure; ///< logarithmic, along the face [-]
  double   position    = unknown_figure;
  double   triaxiality = unknown_figure; ///< there [-]
  double   across      = 0;              ///< from the mid-width [mm]

  double elongation() const; ///< [-]
};

struct ZoneFigures
{
  FacePeak peak;
  double   from = unknown_figure, to = unknown_figure; ///< base: of its bent part
  double   mean_elongation = unknown_figure;           ///< of the length from..to [-]
  double   bent_mean       = unknown_figure; ///< the same of the part that lies in the bend
  /// Within it by [mm]; < 0: out of it by; of a body the less of mid-width and free edge;
  /// not of the base.
  double                        inside_bend = unknown_figure;
  std::optional<DuctilityLimit> limit;
  double ductility_used = unknown_figure; ///< peak / limit, both in the limit's measure
};

/// Of one metal's bent part along the free edge.
struct EdgeMean
{
  FaceZone zone       = FaceZone::left_base;
  double   elongation = unknown_figure; ///< [-]
};

/// Of one zone along the free edge: from and to, on the flat coupon from its centre [mm].
struct EdgeStretch
{
  FaceZone zone = FaceZone::left_base;
  double   from = unknown_figure, to = unknown_figure;
};

/// What the convex face of a model with width shows beside the mid-width: cracks begin at
/// the corners, where the free edge is stretched most.
struct AcrossFigures
{
  FacePeak edge;                            ///< largest along the free edge
  FacePeak largest;                         ///< largest anywhere on the face
  double   edge_across    = unknown_figure; ///< the edge from the mid-width [mm]
  double   largest_across = unknown_figure; ///< the largest from the mid-width [mm]
  /// Stress across the width at mid-width, at the crown (the place nearest to the plunger's
  /// centre line) [MPa].
  double crown_width_stress = unknown_figure;
  /// The largest strain seen in each metal that the face shows in its bend, base, HAZ and
  /// weld: at mid-width, along the edge, and where a row is stretched most. NaN for a metal
  /// that none of these places lies in, as a band beside a weld along the coupon.
  std::vector<FacePeak> metals;
  std::vector<EdgeMean> edge_means; ///< of the metals that are bent at the edge
  /// The bend along the free edge, found as at mid-width; where zones lie there: a double V
  /// in a side bend is far wider at the edges than in the middle.
  double                   edge_bend_from = unknown_figure, edge_bend_to = unknown_figure;
  std::vector<EdgeStretch> edge_zones;
};

/// The convex face at one moment; in 3D at mid-width unless another place is named.
struct FaceFigures
{
  double travel = 0; ///< [mm]

  FacePeak                 peak;  ///< of the whole face
  std::vector<ZoneFigures> zones; ///< base, then from left to right, those there are

  double nominal_elongation = unknown_figure; ///< t / (2 nose radius + t) [-]
  double gauge_length       = unknown_figure; ///< about the weld's middle
  double gauge_mean         = unknown_figure; ///< elongation of that length [-]

  double weld_middle  = unknown_figure; ///< NaN without a weld across the coupon
  double fusion_left  = unknown_figure; ///< fusion lines; NaN without weld metal
  double fusion_right = unknown_figure;

  /// The bend: from the outermost place on the left where the face is stretched by half of
  /// the nominal elongation or more, to that on the right. A bar of one metal that follows
  /// the nose is stretched by the nominal elongation, and by half of it where it is bent
  /// with half the nose's curvature.
  double bend_from = unknown_figure, bend_to = unknown_figure;
  double weld_inside_bend = unknown_figure; ///< weld and HAZ together; < 0: out by [mm]

  std::optional<AcrossFigures> across; ///< 3D only

  const ZoneFigures *zone(FaceZone which) const; ///< null when there is none

  double from_weld_middle(double position) const; ///< right > 0 [mm]
  /// From the nearer fusion line along the face, < 0 inside the weld [mm].
  double from_fusion_line(double position) const;
  double over_nominal(double elongation) const; ///< [-]
  double over_base(FaceZone which) const;       ///< peak elongation / the base plate's [-]
};

/// What a place on the convex face of the flat coupon belongs to: along from its centre,
/// across from the mid-width [mm].
FaceZone face_metal(const Case &c, double position, double across);

/// `rows` of one moment; of a half model those of the right half, which are mirrored.
/// Nothing when they hold no convex face.
std::optional<FaceFigures> face_figures(const Case &c, const std::vector<SurfaceRow> &rows,
                                        double travel);
} // namespace throughbend
