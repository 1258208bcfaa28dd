#pragma once
// Everything one pass needs to be told, as plain structs. No field here holds a unit other
// than N, mm, MPa, s (and kg/m^3 for density); the reader deals with text and units.

#include "inputs/case/coupon.h"
#include "inputs/case/fixture.h"
#include "inputs/case/flaw.h"
#include "inputs/metal/material.h"

#include <string>
#include <vector>

namespace throughbend
{
/// How finely the coupon is cut. A size of 0 asks for the size that the level gives.
enum class MeshLevel
{
  quick,    ///< 1 to 2 % in force, for a first look
  standard, ///< the default; errors: tests/verify/README.md
  fine      ///< cells half as long as the standard ones, in 3D two thirds
};

/// Half model where the case is symmetric, or always the full coupon.
enum class ModelChoice
{
  automatic,
  full
};

struct MeshSettings
{
  MeshLevel   level     = MeshLevel::standard;
  ModelChoice model     = ModelChoice::automatic;
  int         dimension = 2; ///< 2 = plane strain per mm width, 3 = the coupon's real width
  int         layers    = 0; ///< cells through the thickness; 0 = by level
  double      cell_size = 0; ///< along x in the bend [mm]; 0 = by level
};

struct SolverSettings
{
  double largest_step          = 0; ///< of travel [mm]; 0 = chosen from the fixture
  double residual_tolerance    = 0; ///< unbalanced force / contact force [-]
  double penetration_tolerance = 0; ///< / thickness [-]
  /// Drag that holds a coupon nothing holds: its force when the whole coupon goes with the
  /// plunger, / the plastic bending force [-].
  double regularisation   = 0;
  int    step_limit       = 0; ///< accepted and refused steps before giving up
  double checkpoint_every = 0; ///< wall time between two checkpoints [s]; 0 = none
};

struct OutputSettings
{
  double field_spacing = 0; ///< travel between field files [mm]; 0 = no fields
};

/// What is measured on the bent coupon afterwards; none of it changes the pass.
struct Inspection
{
  double gauge_length  = 0; ///< on the convex face, about the weld's middle [mm]
  double wire_diameter = 0; ///< tried between nose and coupon [mm]; 0 = none is tried
  double opening_limit = 3; ///< of flaws on the convex face, to compare with [mm]
};

struct Case
{
  std::string    title;
  std::string    lesson;  ///< what the pass is to show, a sentence for reports
  std::string    chapter; ///< heading above it in an index of runs
  Coupon         coupon;
  Weld           weld;
  Flaws          flaws;
  Material       material;
  Fixture        fixture;
  Friction       friction;
  Ram            ram;
  MeshSettings   mesh;
  SolverSettings solver;
  OutputSettings output;
  Inspection     inspection;
  /// Keys that would follow from others if they were left out, and were not: they stay as
  /// they were given where those others change.
  std::vector<std::string> stated{};
};
} // namespace throughbend
