#pragma once
// Moments of a straight bar at small curvature: the fully plastic one, and the way to it
// without hardening. Hardening and large curvature: see finite_bending.

namespace throughbend
{
/// Strain across the width: free in a narrow coupon, held in a wide one's middle.
enum class WidthState
{
  narrow,      ///< plane stress: width / thickness below about 1
  plane_strain ///< width / thickness from about 8
};

/// Axial stress over the uniaxial flow stress: 1 or 2 / sqrt 3 [-].
/// Source: von Mises' condition; Hill (1950) (from memory).
double width_factor(WidthState state);

/// M_p = (1 or 2/sqrt3) Y w t^2 / 4 [N mm], yield [MPa], width and thickness [mm].
/// Source: Hill (1950); Marciniak, Duncan & Hu (2002) ch. 6 (from memory).
double plastic_moment(double yield, double width, double thickness, WidthState state);

/// M / M_p of a perfectly plastic bar at `curvature` times that of first yield [-]:
/// 1 - (1/3) / curvature^2 from 1 on, 2/3 curvature below. Textbook.
double moment_share(double curvature);
} // namespace throughbend
