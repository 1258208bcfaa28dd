#pragma once
// The flat bar that is bent, and the weld across its middle. What each is, in numbers;
// meshes and materials are made from it elsewhere.

namespace throughbend
{
/// Coupon lying flat: x along its length, y through its thickness, z across its width.
struct Coupon
{
  double length    = 0; ///< along x [mm], > 0
  double width     = 0; ///< across z [mm], > 0
  double thickness = 0; ///< along y [mm], > 0
  double offset    = 0; ///< coupon centre sideways of the plunger centre, along x [mm]
};

/// Bands of other strength across the coupon: weld in the middle, HAZ on both sides.
/// Each band's flow curve is the base curve times its ratio.
struct Weld
{
  double width          = 0; ///< weld metal along x [mm]; 0 = no weld
  double haz_width      = 0; ///< each heat-affected band along x [mm]
  double offset         = 0; ///< weld centre from the coupon's centre [mm]
  double strength_ratio = 1; ///< weld flow stress / base flow stress [-]
  double haz_ratio      = 1; ///< HAZ flow stress / base flow stress [-]

  bool   present() const { return width > 0 || haz_width > 0; }
  double total_width() const { return width + 2 * haz_width; } ///< [mm]
};
} // namespace throughbend
