#pragma once
// One point along a face of the coupon, for surface.csv.

namespace throughbend
{
enum class Face
{
  convex, ///< the stretched one, on the shoulders
  concave ///< the squeezed one, under the plunger
};

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
};
} // namespace throughbend
