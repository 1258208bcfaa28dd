#pragma once
// What a line load does where a round tool bears on the coupon: width and pressure of the
// elastic contact, and the pressures at which metal begins to yield or is dented for good.
// Dry, long cylinders; no friction, no lubricant film.

#include "inputs/metal/material.h"

namespace throughbend
{
struct LineContact
{
  double half_width = 0; ///< a [mm]
  double pressure   = 0; ///< largest, p0 [MPa]
};

/// 1/E* = (1 - nu1^2)/E1 + (1 - nu2^2)/E2 [MPa].
double contact_modulus(double young_1, double poisson_1, double young_2, double poisson_2);

/// A cylinder of `radius` [mm] on a plane, load per width [N/mm]:
/// a = sqrt(4 P R / (pi E*)), p0 = 2 P / (pi a). Valid until one of the two yields.
/// Source: Hertz (1881); Johnson (1985), Contact Mechanics, ch. 4 (from memory).
LineContact hertz_line(double load, double radius, double modulus);

/// p0 at which metal first yields below the face, 1.79 Y [MPa]. Source: Johnson (1985), for
/// p0 = 3.1 k (from memory).
double first_yield_pressure(double yield);

/// Mean pressure that dents a face for good, (2 + pi) Y / sqrt3 = 2.97 Y [MPa], plane
/// strain. Source: Prandtl (1920) (from memory).
double denting_pressure(double yield);

/// Where a steel tool's round bears on the coupon: elastic, but no more than the coupon's
/// face can bear; then the patch is as wide as that pressure asks for.
struct Bearing
{
  double pressure = 0; ///< largest, in the middle of the patch [MPa]
  double width    = 0; ///< of the patch along the coupon [mm]
};

/// Load per width [N/mm]; the coupon's elastic constants, and the flow stress of the zone
/// that bears on the tool at a dent's strain [MPa].
Bearing tool_bearing(double load, double radius, const Material &coupon, double stress);
constexpr double bearing_strain = 0.05; ///< from memory

/// How deep the round of a tool is flattened where a harder flat face bears on it with more
/// than it can carry [mm]: the flat grows until load / (2 a) is the tool's denting
/// pressure, and a chord of half width a lies a^2 / (2 R) below the round. Load per width
/// [N/mm].
double flattened_depth(double load, double radius, double yield);
} // namespace throughbend
