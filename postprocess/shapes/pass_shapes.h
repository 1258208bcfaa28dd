#pragma once
// The deformed coupon and the tools at the moments a run has kept, read from its .vtu,
// .pvtu and .vtp files and thinned to what a picture needs: a plane mesh of quadrilaterals
// with two strains per point. Of a body with width it takes the middle plane, and the
// surface of the whole besides. Draws nothing.

#include "meshes/tools/rigid_profile.h"
#include "postprocess/shapes/solid_surface.h"

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// Whether the coupon is loaded in the tools, or free of them.
enum class Loading
{
  loaded,
  released
};

/// The points of a solid's surface at one moment, and their strains as in `Shape`.
struct SolidShape
{
  std::vector<std::array<double, 3>> points; ///< [mm], z across from the middle plane
  std::vector<double>                axial_strain, plastic_strain;
};

struct Shape
{
  double                   travel = 0; ///< of the plunger [mm]
  Loading                  hold   = Loading::loaded;
  std::string              file;           ///< it came from
  std::vector<PlaneVector> points;         ///< where they are now [mm]
  std::vector<double>      axial_strain;   ///< logarithmic, along the coupon [-]
  std::vector<double>      plastic_strain; ///< equivalent [-]
  SolidShape               solid;          ///< the outside of a body with width
};

/// Whether the mesh is the whole coupon or its right half, to be mirrored at x = 0.
enum class ModelPart
{
  whole,
  right_half
};

struct DrawnTool
{
  bool                     is_plunger = false; ///< moves down with the travel
  std::vector<PlaneVector> outline;            ///< at travel 0 [mm]
  double                   half_width = 0; ///< from the middle plane; 0: a plane model [mm]
};

struct PassShapes
{
  ModelPart                       part = ModelPart::whole;
  std::vector<PlaneVector>        flat;    ///< points before the pass [mm]
  std::vector<int>                zone;    ///< of each point: 0 base, 1 HAZ, 2 weld
  std::vector<int>                lip;     ///< of each point: 0, flaw's lip 1 left, 2 right
  std::vector<std::array<int, 4>> cells;   ///< points, around
  std::vector<std::array<int, 2>> edges;   ///< outline, borders of zones, lips of flaws
  SolidSurface                    surface; ///< of a body with width, else empty
  std::vector<Shape>              shapes;  ///< in the order of travel, released last
  std::vector<DrawnTool>          tools;
  std::vector<std::string>        missing; ///< files that are not there or not readable

  bool empty() const { return shapes.empty(); }

  /// Place in `shapes` of the loaded shape nearest to a travel [mm]. There must be one.
  std::size_t nearest(double travel) const;
  std::size_t last_loaded() const; ///< place of the last shape in the tools
};

/// Without a part the mesh tells: only a half model has nothing left of the middle.
PassShapes read_pass_shapes(const std::filesystem::path &folder,
                            std::optional<ModelPart>     part);

/// A shape's points along the convex face, from end to end.
struct FacePoint
{
  double position = 0; ///< along the flat coupon from the plunger's centre [mm]
  double strain   = 0; ///< axial, logarithmic [-]
};
std::vector<FacePoint> convex_face(const PassShapes &shapes, const Shape &shape);
} // namespace throughbend
