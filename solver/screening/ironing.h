#pragma once
// The force that pressing a leg through too narrow a room adds: the shoulder dents it as it
// is drawn past, with the slip-line pressure of a narrow die; and how friction on a round
// tool multiplies a pull. Rough: leaves out the leg's bending and springing back and the
// bulge that the shoulder pushes up before it, all of which add to the force.

namespace throughbend
{
/// A leg that is drawn thinner by one shoulder's round.
struct Ironing
{
  double excess   = 0; ///< leg thickness over the room beside the plunger [mm]
  double room     = 0; ///< what it is drawn down to [mm]
  double radius   = 0; ///< of the shoulder [mm]
  double friction = 0; ///< on the shoulder [-]
};

/// Length along the leg that the shoulder bites on, sqrt(2 radius excess - excess^2) [mm].
double bite_length(const Ironing &i);

/// Height over length of the plane-strain slab that is dented, (2 room + excess) / bite
/// [-]: the flank takes no shear from a leg that goes with it, so it is a plane of
/// symmetry.
double bite_ratio(const Ironing &i);

/// Mean pressure / 2k [-] of two smooth flat dies on a slab, `ratio` = height / die width.
/// With a the angle of the two equal fans, in widths and half heights,
///   ratio / 2 = J + I0(2a) / 2,  J = integral of I0(2s) from 0 to a,
///   pressure / 2k = 1 + 2 / ratio [a (I0(2a) + I1(2a)) - J],
/// from no resultant across the axis; at most the 1 + pi/2 of one die on a deep body, from
/// ratio 8.7; 1 below ratio 1, where it is at most 4 % low. Rigid, perfectly plastic.
/// Source: Hill (1950), The Mathematical Theory of Plasticity (from memory).
double indentation_pressure(double ratio);

/// Strain whose flow stress stands for a dent's in a metal that hardens [-]. Source: Tabor
/// (1951), The Hardness of Metals, 0.08 for a blunt pyramid (from memory).
inline constexpr double dent_strain = 0.08;

/// Ram force on one leg per mm of width [N/mm], flow stress uniaxial [MPa]:
///   2k (pressure / 2k) (excess + friction bite),  2k = 2/sqrt3 s.
/// Low, the more the higher the leg over its bite; screen_fit.cc has by how much.
double ironing_force(const Ironing &i, double flow_stress);

/// Capstan: T2 / T1 = exp(mu theta) [-], angle [rad]. Euler (1769), Eytelwein.
double capstan_ratio(double friction, double angle);
} // namespace throughbend
