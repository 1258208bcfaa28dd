#pragma once
// One point along a face of the coupon, for surface.csv.

#include <optional>

namespace throughbend
{
enum class Face
{
  convex, ///< the stretched one, on the shoulders
  concave ///< the squeezed one, under the plunger
};

/// What lies beside a point across the width of a model that has one.
struct AcrossRow
{
  double width_stress = 0; ///< Cauchy, across the width, at mid-width [MPa]

  // At the free edge.
  double edge_x = 0, edge_y = 0;  ///< where it is now [mm]
  double edge_axial_strain   = 0; ///< logarithmic, along the face [-]
  double edge_plastic_strain = 0; ///< equivalent [-]
  double edge_axial_stress   = 0; ///< Cauchy, along the face [MPa]
  double edge_pressure       = 0; ///< contact [MPa]
  double edge_triaxiality    = 0; ///< [-]

  // Where the axial strain is largest between mid-width and edge.
  double largest_across       = 0; ///< from the mid-width [mm]
  double largest_axial_strain = 0; ///< [-]
  double largest_triaxiality  = 0; ///< [-]

  // Along the flat coupon, off the row's own position: where a side bend's weld leans, the
  // lines of the mesh lean with it [mm].
  double edge_shift = 0, largest_shift = 0;
};

/// In 3D at mid-width.
struct SurfaceRow
{
  Face   face     = Face::convex;
  double position = 0;       ///< along the flat coupon from its centre [mm]
  double x = 0, y = 0;       ///< where it is now [mm]
  double axial_strain   = 0; ///< logarithmic, along the face [-]
  double plastic_strain = 0; ///< equivalent [-]
  double axial_stress   = 0; ///< Cauchy, along the face [MPa]
  double pressure       = 0; ///< contact [MPa]
  int    zone           = 0; ///< 0 base, 1 HAZ, 2 weld
  /// Mean stress / von Mises stress [-]; 0 where there is no stress.
  double triaxiality = 0;

  std::optional<AcrossRow> across; ///< 3D only
};
} // namespace throughbend
