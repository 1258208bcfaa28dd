#pragma once
// A dimensioned sketch of a fixture and its coupon on one sheet, A4 in millimetres [inches]
// or Letter in inches [millimetres], to a standard scale: section, coupon from above, and
// the leg between plunger and shoulder enlarged. Outlines are those that the simulation
// uses. It is no manufacturing drawing: no tool lengths across, tolerances only where they
// were found, nothing that the case does not say. SVG and DXF are the same sheet.

#include "inputs/case/coupon.h"
#include "inputs/case/fixture.h"
#include "postprocess/drawing/dimension_line.h"

#include <string>
#include <vector>

namespace throughbend
{
/// What is drawn and what is written beside it.
struct DrawingSubject
{
  /// Plunger width, nose radius and opening are needed. A shoulder radius or depth of 0
  /// [mm] is not known: a likely one is drawn, without dimension, and a note says so.
  Fixture     fixture;
  Coupon      coupon; ///< thickness is needed; length or width 0 [mm]: not known
  double      die_bottom_radius = 0; ///< D of a jig that is closed below [mm]; 0 = none
  double      tool_width = 0; ///< plunger and shoulders across, along z [mm]; 0 = not known
  std::string title;
  std::string rule      = {}; ///< name, standard, clause, read or from memory; empty = none
  std::string rule_used = "none, sizes as given"; ///< in few words, for the title block
  std::vector<SizeLimits>  limits   = {};         ///< of sizes, where any are known
  std::vector<std::string> cautions = {};
  std::string              program  = {};                 ///< "throughbend 0.1.0"
  std::string              date     = {};                 ///< 2026-11-27; empty: not given
  UnitSystem               units    = UnitSystem::metric; ///< metric: A4; us: Letter
};

/// The sheet and what can be measured on it.
struct FixtureSheet
{
  Sheet                       sheet;
  double                      width = 0, height = 0;       ///< of the paper [mm]
  double                      scale = 1, detail_scale = 1; ///< paper / world
  PlaneVector                 origin; ///< of the section: middle, on the shoulders' tops
  std::vector<DrawnDimension> dimensions;
};

/// Throws InputError where plunger, opening or coupon are missing or not above 0.
FixtureSheet fixture_sheet(const DrawingSubject &subject);

/// The same as SVG, in real lengths: printed without "fit to page" it is to scale.
std::string fixture_drawing(const DrawingSubject &subject);

/// The same as a CAD file, with the section and the coupon from above in their own size:
/// 1 unit is 1 mm, or 1 inch in US units. 0, 0 is the middle between the shoulders' tops.
std::string fixture_cad_file(const DrawingSubject &subject);

/// The outlines of plunger, shoulders and frame at travel 0 as a .vtp for ParaView, flat.
std::string fixture_profile_file(const DrawingSubject &subject);
} // namespace throughbend
