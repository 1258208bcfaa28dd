#pragma once
// The flat bar that is bent, and the weld in it: how it was prepared, which way it lies,
// what is left standing on its faces and how strong it is. What each is, in numbers;
// meshes and materials are made from it elsewhere.

#include "inputs/metal/flow_curve.h"

#include <string>

namespace throughbend
{
/// Coupon lying flat: x along its length, y through its thickness, z across its width.
struct Coupon
{
  double length      = 0; ///< along x [mm], > 0
  double width       = 0; ///< across z [mm], > 0
  double thickness   = 0; ///< along y [mm], > 0; with a taper: in the middle
  double offset      = 0; ///< coupon centre sideways of the plunger centre, along x [mm]
  double taper       = 0; ///< thickness at the right end less that at the left [mm]
  double edge_radius = 0; ///< rounding of the four long edges [mm]; counts in 3D only
};

/// How the plates were prepared for welding.
enum class Preparation
{
  square,      ///< straight faces, a parallel gap
  single_v,    ///< both faces bevelled alike, wide at the weld's face
  double_v,    ///< bevelled from both sides alike, narrow in the middle of the plate
  single_bevel ///< left face straight, right face bevelled
};

/// Which surface of the weld is stretched.
enum class BendKind
{
  face, ///< the weld's face, where it is wide, is the convex side
  root, ///< the weld's root is the convex side
  side  ///< cut across the weld: the whole section shows on the convex side
};

/// Which way the weld runs over the coupon.
enum class WeldRun
{
  transverse,  ///< across the width; zones follow each other along the length
  longitudinal ///< along the length; zones lie side by side across the width
};

/// What stands above one surface of the plate; its crown is an arc.
struct Reinforcement
{
  double height = 0; ///< above the plate [mm]; 0 = ground flush
  double width  = 0; ///< from toe to toe, before the toes are rounded [mm]
};

/// Flow curve of a zone, its own or the base plate's times a ratio, and what it bears.
struct ZoneFlow
{
  bool        own          = false;
  FlowCurve   curve        = {}; ///< only with own
  std::string grade        = {}; ///< name of the metal it was taken from; empty = none
  double      elongation   = 0;  ///< at fracture in a tension test [-]; 0 = not known
  double      limit_strain = 0;  ///< largest local log strain it bears [-]; 0 = not known
};

/// Zones of other strength: weld metal, and a heat-affected band along each fusion line.
struct Weld
{
  double width          = 0; ///< of the weld metal of a square preparation [mm]
  double haz_width      = 0; ///< each heat-affected band, square to the fusion line [mm]
  double offset         = 0; ///< weld centre from the coupon's centre [mm]
  double strength_ratio = 1; ///< weld flow stress / base flow stress [-]
  double haz_ratio      = 1; ///< HAZ flow stress / base, at the fusion line [-]
  double haz_base_ratio = 0; ///< the same where the HAZ ends [-]; 0: as haz_ratio

  Preparation preparation    = Preparation::square;
  BendKind    bend           = BendKind::face;
  WeldRun     run            = WeldRun::transverse;
  double      root_opening   = 0; ///< gap between bevelled plates [mm]
  double      included_angle = 0; ///< between the bevelled faces; of a single bevel [rad]
  double      root_face      = 0; ///< straight part of a bevelled plate edge [mm]
  double      penetration    = 0; ///< of the weld into the prepared faces [mm]
  double      transition     = 0; ///< strength changes over this width [mm]; 0: it jumps

  Reinforcement cap        = {}; ///< on the weld's face
  Reinforcement root_bead  = {}; ///< on the weld's root
  double        toe_radius = 0;  ///< where either runs into the plate [mm]

  ZoneFlow metal_flow = {}, haz_flow = {};

  /// Gap between the prepared plates at its narrowest [mm].
  double gap() const { return preparation == Preparation::square ? width : root_opening; }
  bool   has_metal() const { return width > 0 || preparation != Preparation::square; }
  bool   present() const { return has_metal() || haz_width > 0; }
  bool   symmetric() const { return preparation != Preparation::single_bevel; }
  double haz_end_ratio() const { return haz_base_ratio > 0 ? haz_base_ratio : haz_ratio; }
};
} // namespace throughbend
