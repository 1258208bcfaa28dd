#pragma once
// The force that drawing too thick a leg between plunger and shoulder adds, as strip
// drawing; and how friction on a round tool multiplies a pull. Rough: no bending in the
// leg, no hardening beyond the flow stress given.

namespace throughbend
{
/// A leg that is drawn thinner by one shoulder's round.
struct Ironing
{
  double excess   = 0; ///< leg thickness over the room beside the plunger, > 0 [mm]
  double room     = 0; ///< what it is drawn down to [mm]
  double radius   = 0; ///< of the shoulder [mm]
  double friction = 0; ///< [-]
};

/// Mean die angle [rad]: half the bite acos(1 - excess / radius).
double die_angle(const Ironing &i);

/// Force on one leg per mm of width [N/mm], flow stress uniaxial [MPa]:
///   room * 2k (1 + f)/f [1 - (room / (room + excess))^f],  f = mu cot(alpha), 2k = 2/sqrt3
///   s
/// Source: Sachs' slab method for strip drawing; Hoffman & Sachs (1953), Introduction to
/// the Theory of Plasticity (from memory).
double ironing_force(const Ironing &i, double flow_stress);

/// Capstan: T2 / T1 = exp(mu theta) [-], angle [rad]. Euler (1769), Eytelwein.
double capstan_ratio(double friction, double angle);
} // namespace throughbend
