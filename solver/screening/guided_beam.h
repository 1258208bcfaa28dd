#pragma once
// The guided bend as a beam: a coupon that wraps round the nose and whose legs curve as
// their moment asks, between shoulders with friction. Instant, because a leg under one
// force is solved by quadrature. Plane strain, one metal, half of a symmetric coupon; no
// shear, no denting by the tools, no history of the leg (it never unbends), no squeeze.

#include "solver/screening/bend_statics.h"
#include "solver/screening/finite_bending.h"

#include <vector>

namespace throughbend
{
/// The coupon at one travel. Forces are per mm of width.
struct BeamState
{
  double travel         = 0; ///< from first touch [mm]
  double force          = 0; ///< of the ram, both legs [N/mm]
  double shoulder_force = 0; ///< on one shoulder, normal [N/mm]
  double leg_angle      = 0; ///< where the leg lies on the shoulder, from flat [rad]
  double wrap           = 0; ///< angle over which one half lies on the nose [rad]
  double moment         = 0; ///< under the nose [N mm/mm]
  double length         = 0; ///< along the coupon from its centre to the shoulder [mm]
  double outer_strain   = 0; ///< axial log strain under the nose [-]
  double springback     = 0; ///< of one leg if let go now [rad]
  double elastic_energy = 0; ///< that letting go would free, both halves [N mm/mm]
};

/// The states from first load until the leg's end reaches the shoulder, the leg stands
/// upright, `steepest` [rad], or a beam knows no further equilibrium (some 80 deg).
///
/// A leg from the shoulder to the nose, seen from its contact: M = N (u + mu (v + t/2))
/// with u along the leg and v across it, and d(alpha)/ds = k(M). So
///   sin(alpha) + mu (1 - cos(alpha)) = (1/N) integral k dM,
/// and u, v by quadrature over M. The nose bends the coupon to its own radius; once the
/// moment for that is reached, the touch moves up the nose and the moment stays.
/// The concave face shortens under the nose and is held back by its friction, half a
/// thickness off the middle: the leg has to carry M + mu_nose N t/2. Beyond `held_friction`
/// the face sticks and holds no more than that.
/// Source: elementary beam theory, worked out for this project. Without the nose's friction
/// the set-up is that of the fibre-beam reference in the tests, which was computed
/// independently.
constexpr double held_friction = 0.2; // [-], from where the simulated force stops rising

std::vector<BeamState> bend_guided(const BendGeometry &g, const BendCurve &curve,
                                   const Friction &friction, double half_length,
                                   double steepest);
} // namespace throughbend
