#pragma once
// Plunger, shoulders and frame as the shop describes them: a few dimensions each. The
// outlines that the coupon touches are made from these in meshes/setup/fixture_profiles.

#include <cmath>
#include <string>

namespace throughbend
{
/// The pushing tool: a bar with a rounded nose and straight, parallel flanks.
struct Plunger
{
  double width       = 0; ///< over the flanks, along x [mm]
  double nose_radius = 0; ///< [mm], at most width / 2 (then the nose is a half round)
  double yield       = 0; ///< of its metal [MPa], only for screening; 0 = not known

  /// Twice the radius that the coupon is bent about; the width, if the nose is a half
  /// round [mm].
  double bend_diameter() const { return 2 * nose_radius; }
  /// Flat between two rounded edges, and no half round: by more than rounding.
  bool flat_nose() const { return nose_radius < 0.999 * width / 2; }
  /// A half round but for the rounding of figures that were written in two units.
  bool half_round() const { return std::abs(2 * nose_radius - width) <= 1e-9 * width; }
  /// Makes such a nose the half round that it is meant to be.
  void settle_nose()
  {
    if (half_round())
      nose_radius = width / 2;
  }
};

enum class ShoulderKind
{
  solid,  ///< fixed block: arc on the top inside corner, straight wall below it
  rollers ///< two round bars
};

/// What the coupon lies on and is pushed between.
struct Shoulders
{
  ShoulderKind kind          = ShoulderKind::solid;
  double       radius        = 0;     ///< of the arc or of the roller [mm]
  double       opening       = 0;     ///< clear distance between the two [mm]
  double       depth         = 0;     ///< top to the wall's lower end, solid only [mm]
  double       bottom_radius = 0;     ///< fillet at the wall's lower end, solid only [mm]
  bool         rollers_turn  = false; ///< rollers on free bearings: no friction force
  double       yield = 0; ///< of their metal [MPa], only for screening; 0 = not known

  /// Rollers on free bearings; a solid shoulder never is.
  bool roll() const { return kind == ShoulderKind::rollers && rollers_turn; }
};

/// Two side plates with an opening through which the coupon is slid in. Absent if distance
/// = 0.
struct Frame
{
  double distance        = 0; ///< centre to the inside of each plate, along x [mm]
  double clearance_above = 0; ///< opening above the flat coupon [mm]
  double clearance_below = 0; ///< opening below the flat coupon [mm]
  double plate_thickness = 0; ///< along x [mm]
  double edge_radius     = 0; ///< fillet on the opening's edges [mm]

  bool present() const { return distance > 0; }
};

struct Fixture
{
  Plunger     plunger;
  Shoulders   shoulders;
  Frame       frame;
  std::string rule; ///< published rule to compare it with; empty = none

  /// Room left beside a leg when the plunger stands between the shoulders,
  /// (opening - plunger width) / 2 - thickness [mm] per side; negative: the leg is ironed.
  double clearance(double coupon_thickness) const
  {
    return (shoulders.opening - plunger.width) / 2 - coupon_thickness;
  }
};

/// Coulomb coefficients [-] between the coupon and each tool.
struct Friction
{
  double      plunger             = 0;
  double      shoulders           = 0;
  double      frame               = 0;
  std::string lubricant           = {}; ///< row of a catalogue they came from; empty = none
  std::string catalogue           = {}; ///< user's own file with such rows; empty = none
  double      other_left_shoulder = -1; ///< below 0: as the right one

  double left_shoulder() const
  {
    return other_left_shoulder < 0 ? shoulders : other_left_shoulder;
  }
};

/// The hydraulics behind a ram that is pumped by hand. Says nothing about the pass, only
/// what it takes to drive it. Every 0 means: not known.
struct Jack
{
  double bore        = 0; ///< diameter of the ram's piston [mm]
  double pump_bore   = 0; ///< diameter of the pump's piston [mm]
  double pump_stroke = 0; ///< its way per stroke of the handle [mm]
  double lever_ratio = 0; ///< way of the hand / way of the pump's piston [-]

  bool present() const { return bore > 0; }
};

/// What pushes the plunger.
struct Ram
{
  double capacity = 0; ///< largest force [N]
  double stroke   = 0; ///< largest travel from first touch [mm]
  Jack   jack{};
};
} // namespace throughbend
