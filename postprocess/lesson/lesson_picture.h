#pragma once
// The coupon and the tools about it as plain outlines, without strains, for a class to
// mark; and the same with marks, for its teacher.

#include "postprocess/shapes/pass_shapes.h"

#include <string>
#include <vector>

namespace throughbend
{
/// As an <svg> element. `marks` are points of the mesh that get a ring; of a half model on
/// both sides.
std::string outline_picture(const PassShapes &shapes, const Shape &shape,
                            const std::string              &title,
                            const std::vector<std::size_t> &marks = {});

/// The coupon before the pass, as a shape.
Shape flat_shape(const PassShapes &shapes);
} // namespace throughbend
