#pragma once
// Pressure from penetration and friction stress from slip at one contact point, with their
// derivatives. A stiff spring with a smooth onset stands for rigid contact; a return map
// for Coulomb friction. Knows neither tool nor mesh; slip has one component in a plane
// model and a second one, across the width, in 3D.

#include <array>
#include <limits>

namespace throughbend
{
/// The spring begins to act `band` outside the tool's outline and is laid out to stop the
/// coupon about as far inside it: twice as soft as a spring that begins at the outline, for
/// the same largest distance between the real surfaces, which Newton thanks with a fifth
/// fewer iterations.
struct ContactStiffness
{
  double normal     = 0; ///< pressure per penetration once firm [N/mm^3]
  double tangential = 0; ///< friction stress per slip while sticking [N/mm^3]
  double onset      = 0; ///< compression over which the spring becomes firm [mm]
  double band       = 0; ///< distance from the outline at which it begins to act [mm]

  /// Distances from the outline within which the foot of a point is followed [mm]. A point
  /// that comes into contact from farther away in one step has no slip in that step.
  double reach      = std::numeric_limits<double>::infinity();
  double nose_reach = std::numeric_limits<double>::infinity(); ///< of the plunger

  /// A face longer than this [mm] has its points so far apart that a round passes between
  /// them: its springs begin to act as far outside as the round would sink in, by up to
  /// widest_band bands. Then the load goes over from one point to the next, and a leg does
  /// not hop.
  double long_face   = std::numeric_limits<double>::infinity();
  double widest_band = 10; ///< [-]
};

/// Spring pressure at a gap, its slope and the energy per area held by it.
struct NormalResponse
{
  double pressure = 0; ///< [MPa], >= 0
  double slope    = 0; ///< - d pressure / d gap [N/mm^3], >= 0
  double energy   = 0; ///< [N mm/mm^2]
};

/// With the compression d = band - gap: p = k d^2 / (2 onset) up to d = onset, then a
/// straight line of slope k.
NormalResponse normal_response(double gap, const ContactStiffness &stiffness);

/// Slip and friction stress: [0] along the outline, [1] across the width.
using Tangential = std::array<double, 2>;

struct FrictionResponse
{
  Tangential stress{}; ///< on the coupon [MPa]
  bool       slipping = false;
  /// d stress[i] / d slip[j] at fixed pressure [N/mm^3].
  std::array<Tangential, 2> by_slip{};
  Tangential                by_pressure{}; ///< d stress[i] / d pressure [-]
};

/// Coulomb return mapping (Giannakopoulos 1989, Comput. Struct. 32, 157; Wriggers 2006,
/// Computational Contact Mechanics, sec. 5.2): trial = old - k slip, cut to mu p.
FrictionResponse friction_response(const Tangential &old_stress, const Tangential &slip,
                                   double pressure, double friction,
                                   const ContactStiffness &stiffness);
} // namespace throughbend
