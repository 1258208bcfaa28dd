#include "postprocess/shapes/face_point.h"

#include <cmath>

namespace throughbend
{
std::optional<std::size_t> face_point(const PassShapes &shapes, const double thickness,
                                      const LongFace face, const double x)
{
  constexpr double beside = 0.3; // of the thickness: a face has a node that near
  const double     sign   = face == LongFace::convex ? 1 : -1;
  double           edge   = 1e30;
  const auto       away   = [&](std::size_t i) { return std::abs(shapes.flat[i].x - x); };
  const auto       counts = [&](std::size_t i)
  { return shapes.lip[i] == 0 && away(i) <= beside * thickness; };
  for (std::size_t i = 0; i < shapes.flat.size(); ++i)
    if (counts(i))
      edge = std::min(edge, sign * shapes.flat[i].y);
  std::optional<std::size_t> best;
  for (std::size_t i = 0; i < shapes.flat.size(); ++i)
    if (counts(i) && sign * shapes.flat[i].y < edge + 1e-3 &&
        (!best || away(i) < away(*best)))
      best = i;
  return best;
}
} // namespace throughbend
