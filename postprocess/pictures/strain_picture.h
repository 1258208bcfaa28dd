#pragma once
// One moment of a pass as a PNG: the strain along the coupon on its deformed shape, the
// tools around it, outlines of weld and HAZ, and what the colours mean.

#include "inputs/units/units.h"
#include "postprocess/shapes/shape_scale.h"

#include <string>

namespace throughbend
{
/// `heading` stands above the picture. Gives the bytes of the file.
std::string strain_picture(const PassShapes &shapes, const Shape &shape,
                           const ShapeScale &scale, const std::string &heading);
} // namespace throughbend
