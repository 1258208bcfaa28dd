#include "meshes/coupon/zone_grading.h"

#include "meshes/coupon/cell_cuts.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
constexpr double least_squeezed =
    1. / 3; ///< of the wished cell, where a weld is narrow [-]

/// So few cells may lie between two lines of a side bend that none is squeezed to a sliver
/// where the lines come closest.
std::size_t most_between(const CouponShape &shape, const MeshLine &a, const MeshLine &b,
                         const double wish)
{
  double narrow = std::numeric_limits<double>::infinity();
  for (const double height : shape.levels())
    narrow = std::min(narrow, shape.line(b, height) - shape.line(a, height));
  const double least = least_squeezed * std::min({a.cell, b.cell, wish});
  return static_cast<std::size_t>(std::max(1., std::round(narrow / least)));
}
} // namespace

/// The straight grid across the zones. Between each pair of lines as many cells as they
/// need on the convex face, where strain is asked for; elsewhere, where they are farther
/// apart, cells may be twice as long, and only flaws ask for fine ones. All are spread as
/// the convex face wants them: what a wide side would crowd towards a line would be slivers
/// where a V is narrow, whose strain leaps from point to point.
std::vector<double> across_zones(const CouponShape                   &shape,
                                 const std::function<double(double)> &wish,
                                 const double                         growth)
{
  constexpr double             longer_elsewhere = 2;
  const std::vector<MeshLine> &lines            = shape.lines();
  std::vector<double>          grid             = {lines.front().grid};
  const auto                   size_on_face     = [&](const double x)
  {
    double size = wish(x);
    for (const MeshLine &line : lines)
      size = std::min(size, std::min(line.cell, line.tip_cell) +
                                growth * std::abs(x - shape.line(line, 0)));
    return size;
  };
  for (std::size_t i = 0; i + 1 < lines.size(); ++i)
  {
    const double        a = lines[i].grid, b = lines[i + 1].grid;
    const double        from = shape.line(lines[i], 0), to = shape.line(lines[i + 1], 0);
    std::vector<double> cuts = cut(from, to, size_on_face);
    if (const std::size_t few =
            shape.depth_along_y() ? cuts.size()
                                  : most_between(shape, lines[i], lines[i + 1], wish(from));
        few < cuts.size())
      cuts = cut(from, to, [&](double) { return (to - from) / static_cast<double>(few); });
    const std::size_t own  = cuts.size();
    std::size_t       most = own;
    for (const double height :
         shape.depth_along_y() ? shape.levels() : std::vector<double>{})
    {
      const auto size_inside = [&](const double x)
      {
        double size = wish(x);
        for (const MeshLine &line : lines)
          size = std::min(size,
                          line.tip_cell + growth * std::abs(x - shape.line(line, height)));
        return longer_elsewhere * size;
      };
      if (height > 0)
        most = std::max(most, cut(shape.line(lines[i], height),
                                  shape.line(lines[i + 1], height), size_inside)
                                  .size());
    }
    if (most > own)
      cuts = cut(from, to,
                 [&](const double x) {
                   return size_on_face(x) * static_cast<double>(own) /
                          static_cast<double>(most);
                 });
    for (double &x : cuts)
      if (a != from || b != to)
        x = a + (b - a) * (x - from) / (to - from);
    cuts.back() = b;
    grid.insert(grid.end(), cuts.begin(), cuts.end());
  }
  return grid;
}
} // namespace throughbend
