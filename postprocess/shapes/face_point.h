#pragma once
// Points of a kept mesh that lie on one of the coupon's two long faces near a place along
// it. Geometry alone; the lips of a flaw do not count.

#include "postprocess/shapes/pass_shapes.h"

#include <optional>

namespace throughbend
{
enum class LongFace
{
  convex, ///< below in the flat coupon
  concave
};

/// The point of a face nearest to x on the flat coupon [mm] where it is placed; none
/// without points within 0.3 of the thickness [mm].
std::optional<std::size_t> face_point(const PassShapes &shapes, double thickness,
                                      LongFace face, double x);
} // namespace throughbend
