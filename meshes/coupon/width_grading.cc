#include "meshes/coupon/width_grading.h"

#include "meshes/coupon/cell_cuts.h"
#include "meshes/coupon/zone_grading.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
// A side bend's lines lean across the width. Cells whose shift over their length was 25
// and more told 37 % at mid-width for a weld as strong as its plate, where the plain coupon
// has 24.7 %; with these they tell 25 to 26 %. A weld at 0.8 of the plate's strength has
// 53 %, and the same with cells half as long (quick meshes).
constexpr double most_skew_across = 3;   ///< beside the turn of a fusion line [-]
constexpr double growth_across    = 0.4; ///< of the cells, over the distance from there
constexpr double most_growth      = 2.2; ///< of the widest cell over the first [-]

/// How high a cell may be across the width of a side bend, where its lines turn, for the
/// cells `along` [mm]; infinite where none leans. One of length L that grows by g, and
/// whose side shifts by s per height, has a skew of s h / (L + g h / 2).
double unskewed_across(const CouponShape &shape, const std::vector<double> &along,
                       const double half_width)
{
  const std::vector<double> levels = shape.levels();
  const auto                place  = [&](const double x, const double level) {
    return shape.leaned({x, 0, level - half_width}).x;
  };
  double height = std::numeric_limits<double>::infinity();
  for (std::size_t k = 0; k + 1 < levels.size(); ++k)
  {
    const double low = levels[k], high = levels[k + 1];
    if (low < half_width - 1e-6) // the other half, or upright at a root face
      continue;
    for (std::size_t i = 0; i + 1 < along.size(); ++i)
    {
      const double at = place(along[i], low), length = place(along[i + 1], low) - at;
      const double shift = (place(along[i], high) - at) / (high - low);
      const double growth =
          ((place(along[i + 1], high) - place(along[i], high)) - length) / (high - low);
      if (const double steep = std::abs(shift) - most_skew_across * growth / 2;
          std::abs(shift) > 1e-9 && steep > 0)
        height = std::min(height, most_skew_across * length / steep);
    }
  }
  return height;
}

/// Half the width of a side bend whose lines lean, cut where they turn.
std::vector<double> across_leaning(const CouponShape &shape, const double half_width,
                                   const double first, const double size)
{
  std::vector<double> kept = {0};
  for (const double level : shape.levels())
    if (level - half_width > 1e-3 && level < 2 * half_width - 1e-3)
      kept.push_back(level - half_width);
  const double turn = kept.back();
  kept.push_back(half_width);
  std::vector<double> cuts = {0};
  for (std::size_t k = 0; k + 1 < kept.size(); ++k)
    for (const double z :
         cut(kept[k], kept[k + 1],
             [&](const double at)
             { return std::min(size, first + growth_across * std::abs(at - turn)); }))
      cuts.push_back(z);
  return cuts;
}
} // namespace

/// Half the width, from the mid-plane out. The edge curls over about a thickness of it, and
/// strain is largest there.
std::vector<double> across_width(const Case &c, const CouponShape &shape, int layers,
                                 const std::vector<double> &along, const double growth)
{
  const double t = c.coupon.thickness, half_width = c.coupon.width / 2;
  const int    pairs = std::max(1, layers / 2);
  const double size  = 1.2 * t / pairs; // away from the edge
  if (!shape.zones_along_x())
    return across_zones(
        shape, [&](double) { return std::min(size, half_width / (2 * pairs)); }, growth);
  const double first = shape.depth_along_y() ? std::numeric_limits<double>::infinity()
                                             : unskewed_across(shape, along, half_width);
  if (std::isfinite(first))
    return across_leaning(shape, half_width, first, std::min(size, most_growth * first));
  const double        edge  = std::min(0.8 * t, 0.4 * half_width);
  const double        inner = half_width - edge;
  const int           cells = std::max(pairs, static_cast<int>(std::ceil(inner / size)));
  std::vector<double> cuts;
  for (int i = 0; i <= cells; ++i)
    cuts.push_back(inner * i / cells);
  for (int i = 1; i <= pairs; ++i)
    cuts.push_back(inner + edge * i / pairs);
  return cuts;
}
} // namespace throughbend
