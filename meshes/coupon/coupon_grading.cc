#include "meshes/coupon/coupon_grading.h"

#include "meshes/coupon/cell_cuts.h"
#include "meshes/coupon/leg_reach.h"
#include "meshes/coupon/size_wish.h"
#include "meshes/coupon/width_grading.h"
#include "meshes/coupon/zone_grading.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>

namespace throughbend
{
namespace
{
/// A quick mesh answers soon whatever the case: its fine cells (along welds, flaws, ironed
/// legs, edges) get longer until it has no more unknowns than this, but at most `coarsest`
/// times as long. No coupon of the gallery needs it.
constexpr std::size_t most_unknowns_if_quick = 7000;
constexpr double      coarsest               = 12;

/// Sizes near a line that wants finer cells grow by a third of the distance from it, and
/// twice as fast on a mesh that has to be coarser.
double growth_from_line(const double coarser)
{
  return std::min(coarser, 2.) / 3;
}

// Strain beside a change of strength fades into the plate as it does along the face.
constexpr double height_at_face = 1.5; ///< of a cell over its length beside such a line
constexpr double growth_inward  = 0.5; ///< of the layers' height, over the depth

/// A flaw ends where a row of cells does; a turn of a fusion line that lies too close to
/// its tip has to give way.
void keep_tips(const std::vector<Seam> &seams, double least, std::vector<double> &kept)
{
  const double        plate = kept.back();
  std::vector<double> tips;
  for (const Seam &seam : seams)
    for (const double tip : {seam.span.low, seam.span.high})
      if (tip > 0 && tip < plate)
        tips.push_back(tip);
  std::sort(tips.begin(), tips.end());
  tips.erase(std::unique(tips.begin(), tips.end(),
                         [](double a, double b) { return b - a < 1e-6; }),
             tips.end());
  kept.erase(std::remove_if(kept.begin(), kept.end(),
                            [&](double level)
                            {
                              return level > 0 && level < plate &&
                                     std::any_of(tips.begin(), tips.end(),
                                                 [&](double tip)
                                                 { return std::abs(level - tip) < least; });
                            }),
             kept.end());
  kept.insert(kept.end(), tips.begin(), tips.end());
  std::sort(kept.begin(), kept.end());
}

// Cells that lean far between two layers tell strain badly: in one metal throughout, beside
// the line of a bevel of 60 degrees, their shift over their length was 6 to 11, and the
// convex face's strain leapt between 0.14 and 0.28 (0.22 is right); at 4 it is within
// 1 %. Away from that face it may be twice as large. A plate of 24 layers has to do
// for any bevel: those of more than 60 degrees are rare, and a pass would take hours.
constexpr double most_skew = 4, skew_inside = 8, most_layers = 24;

/// So high may a layer be at a depth beside lines that ask for short cells, that its cells
/// do not lean too far [mm].
double unskewed(const CouponShape &shape, const double depth, const double plate)
{
  const std::vector<double> levels = shape.levels();
  const bool                inside = depth >= plate / 2;
  const double              most   = inside ? skew_inside : most_skew;
  double                    height = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i + 1 < levels.size(); ++i)
    if (depth >= levels[i] && depth <= levels[i + 1])
      for (const MeshLine &line : shape.lines())
        if (const double shift =
                std::abs(shape.line(line, levels[i + 1]) - shape.line(line, levels[i]));
            std::isfinite(line.cell) && shift > 0)
          height = std::min(height, most * line.cell * (levels[i + 1] - levels[i]) / shift);
  return std::max(height, (inside ? 2 : 1) * plate / most_layers);
}

/// Through the plate from the convex face: `layers` that grow, or where lines turn in it or
/// ask for fine cells, as many as keep to that height, thin ones at the convex face, with a
/// cut at every turn and in the middle.
std::vector<double> through_plate(const CouponShape &shape, double plate, int layers,
                                  double inner_over_outer, double growth)
{
  const double height = plate / layers, least = height / 4;
  double       fine = std::numeric_limits<double>::infinity();
  for (const MeshLine &line : shape.lines())
    fine = std::min(fine, height_at_face * line.cell);
  std::vector<double> levels = shape.levels();
  if (levels.size() <= 2 && fine >= height && shape.seams().empty())
    return graded(plate, layers, inner_over_outer);

  levels.push_back(plate / 2);
  std::sort(levels.begin(), levels.end());
  std::vector<double> kept = {0};
  for (const double level : levels)
    if (level - kept.back() > least && plate - level > least &&
        (std::abs(level - plate / 2) > least || level == plate / 2))
      kept.push_back(level);
  kept.push_back(plate);
  keep_tips(shape.seams(), least, kept);
  const auto wish = [&](double depth)
  {
    double size = std::min({height, fine + growth * depth, unskewed(shape, depth, plate)});
    for (const Seam &seam : shape.seams())
      for (const double tip : {seam.span.low, seam.span.high})
        size = std::min(size, seam.cell + growth * std::abs(depth - tip));
    return size;
  };
  std::vector<double> cuts = {0};
  for (std::size_t k = 0; k + 1 < kept.size(); ++k)
    for (const double level : cut(kept[k], kept[k + 1], wish))
      cuts.push_back(level);
  return cuts;
}

/// Where strength changes along the coupon strain is less even through it too: in the plane
/// four layers gave a soft weld's largest strain 3 % too low, six and eight agree to 1 %.
int layers_of(const Case &c, const CouponShape &shape)
{
  const Level level = level_of(c.mesh);
  if (c.mesh.layers > 0)
    return c.mesh.layers;
  return std::max({level.layers, shape.has_narrow_cells() ? level.layers_if_narrow : 0,
                   leg_is_ironed(c) ? level.layers_if_ironed : 0});
}

/// Makes room for a line; what lies within a quarter of `size` of it gives way [mm].
void cut_also_at(double place, double size, std::vector<double> &lines)
{
  const auto near = [&](double line)
  {
    return std::abs(line - place) < size / 4 && line != lines.front() &&
           line != lines.back();
  };
  lines.erase(std::remove_if(lines.begin(), lines.end(), near), lines.end());
  lines.insert(std::upper_bound(lines.begin(), lines.end(), place), place);
}

/// Where rounded edges begin on the faces and on the side. In a plate without a weld the
/// layers between them are as many as keep to the height of the others.
void cut_at_edges(const Coupon &coupon, const CouponShape &shape, int layers,
                  CouponGrid &grid)
{
  const double r = coupon.edge_radius, t = coupon.thickness;
  if (r == 0)
    return;
  if (shape.levels().size() <= 2 && !shape.has_narrow_cells())
  {
    const double between = t - 2 * r;
    const int cells = std::max(1, static_cast<int>(std::ceil(between * layers / t - 0.25)));
    grid.y          = {0};
    for (int i = 0; i <= cells; ++i)
      grid.y.push_back(r + between * i / cells);
    grid.y.push_back(t);
  }
  else
  {
    cut_also_at(r, r, grid.y);
    cut_also_at(t - r, r, grid.y);
  }
  cut_also_at(coupon.width / 2 - r, r, grid.z);
}
CouponShape shape_of(const Case &c, Extent extent, const double coarser)
{
  return CouponShape(c, extent, size_wish(c, coarser).scale * coarser);
}

CouponGrid grid_of(const Case &c, Extent extent, const double coarser)
{
  const CouponShape shape  = shape_of(c, extent, coarser);
  const SizeWish    wish   = size_wish(c, coarser);
  const int         layers = layers_of(c, shape);
  const auto        along  = [&](double x) { return wish.at(x); };

  CouponGrid grid;
  // A shoulder that irons a leg shears its skin: layers are thin at the convex face. With
  // friction four layers gave an ironing force 3 to 6 % too low, six up to 3 %
  // (tests/verify/ironing_series.md). An innermost layer of half the thickness, though,
  // bends the crown 6 % too little: four layers must not grow so fast.
  const double inner = leg_is_ironed(c) ? level_of(c.mesh).inner_over_skin : 1.;
  grid.y = shape.depth_along_y() ? through_plate(shape, c.coupon.thickness, layers, inner,
                                                 growth_inward * std::min(coarser, 2.))
                                 : graded(c.coupon.thickness, layers, inner);
  if (shape.zones_along_x())
    grid.x = across_zones(shape, along, growth_from_line(coarser));
  else
  {
    const double from = extent == Extent::half ? 0. : c.coupon.offset - c.coupon.length / 2;
    const double to   = c.coupon.offset + c.coupon.length / 2;
    const double middle = from < 0 ? 0. : to;
    grid.x              = {from};
    for (const auto &[a, b] : {std::pair{from, middle}, std::pair{middle, to}})
      if (b - a > 1e-6)
        for (const double x : cut(a, b, along))
          grid.x.push_back(x);
  }
  if (c.mesh.dimension == 3)
  {
    grid.z = across_width(c, shape, layers, grid.x, growth_from_line(1));
    cut_at_edges(c.coupon, shape, layers, grid);
  }
  return grid;
}

/// Of the quadratic displacements of a plane model.
std::size_t n_unknowns(const CouponGrid &grid)
{
  return 2 * (2 * grid.x.size() - 1) * (2 * grid.y.size() - 1);
}
} // namespace

double ironed_cell(const Case &c)
{
  return size_wish(c, coarsening(c)).ironed;
}

CouponShape coupon_shape(const Case &c, Extent extent)
{
  return shape_of(c, extent, coarsening(c));
}

CouponGrid coupon_grid(const Case &c, Extent extent)
{
  return grid_of(c, extent, coarsening(c));
}

double coarsening_by_hand(const Case &c)
{
  Case usual           = c;
  usual.mesh.layers    = 0;
  usual.mesh.cell_size = 0;
  double coarser       = size_wish(c, 1).bend / size_wish(usual, 1).bend;
  if (c.mesh.layers > 0)
  {
    const int layers = layers_of(usual, shape_of(usual, model_extent(usual), 1));
    coarser          = std::max(coarser, static_cast<double>(layers) / c.mesh.layers);
  }
  constexpr double alike = 0.1; // changes no figure by more than the level's own error
  return coarser > 1 + alike ? coarser : 1.;
}

double coarsening(const Case &c)
{
  if (c.mesh.dimension != 2 || c.mesh.level != MeshLevel::quick)
    return 1;
  // A symmetric coupon has the same cells whether all of it is asked for or not.
  Case automatic       = c;
  automatic.mesh.model = ModelChoice::automatic;
  const Extent extent  = model_extent(automatic);
  double       coarser = 1;
  std::size_t  now     = n_unknowns(grid_of(c, extent, coarser));
  while (now > most_unknowns_if_quick && coarser < coarsest)
  {
    const double      next = std::min(1.25 * coarser, coarsest);
    const std::size_t then = n_unknowns(grid_of(c, extent, next));
    if (then >= now) // what is left are the cells of the bend
      break;
    coarser = next;
    now     = then;
  }
  return coarser;
}
} // namespace throughbend
