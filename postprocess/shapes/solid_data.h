#pragma once
// The surface of a body with width and its tools as JSON for the turning view. Coordinates
// are cut to 16 bits of the box that holds all shapes.

#include "inputs/text/json.h"
#include "postprocess/shapes/pass_shapes.h"

namespace throughbend
{
/// The box that holds every shape's surface, and the ends of its own colour maps: an edge
/// may be strained more than the middle of the width.
struct SolidScale
{
  std::array<double, 3> low{}, high{}; ///< [mm]
  double                largest_axial   = 0;
  double                largest_plastic = 0;
};

SolidScale solid_scale(const PassShapes &shapes);

/// Whether there is a surface that 16 bits can number.
bool has_solid(const PassShapes &shapes);

/// What all moments share: faces, edges, tools, colour maps.
Json solid_json(const PassShapes &shapes, const SolidScale &scale);

/// Adds one moment: points and strains.
void add_solid_shape(Json &moment, const SolidShape &shape, const SolidScale &scale);

std::size_t solid_bytes(const PassShapes &shapes); ///< of text for one moment
} // namespace throughbend
