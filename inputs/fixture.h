#pragma once
// Plunger, shoulders and frame as the shop describes them: a few dimensions each. The
// outlines that the coupon touches are made from these in meshes/fixture_profiles.

namespace throughbend
{
/// The pushing tool: a bar with a rounded nose and straight, parallel flanks.
struct Plunger
{
  double width       = 0; ///< over the flanks, along x [mm]
  double nose_radius = 0; ///< [mm], at most width / 2 (then the nose is a half round)
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
  Plunger   plunger;
  Shoulders shoulders;
  Frame     frame;

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
  double plunger   = 0;
  double shoulders = 0;
  double frame     = 0;
};

/// What pushes the plunger.
struct Ram
{
  double capacity = 0; ///< largest force [N]
  double stroke   = 0; ///< largest travel from first touch [mm]
};
} // namespace throughbend
