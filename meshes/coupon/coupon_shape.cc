#include "meshes/coupon/coupon_shape.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace throughbend
{
namespace
{
constexpr double close = 1e-6; // [mm] lines nearer than this are one

/// Cells about a flaw's tips, over its height. A flaw of 3 mm in a root bend opens 12 % too
/// little with 4 of them, 2 % too little with 16, of what meshes up to 45 of them go to.
constexpr double cells_along_flaw = 16;

MeshLine upright(double grid)
{
  MeshLine line;
  line.grid = grid;
  return line;
}

/// Radius of an arc over a chord [mm].
double arc_radius(double chord, double rise)
{
  return (chord * chord / 4 + rise * rise) / (2 * rise);
}
} // namespace

Extent model_extent(const Case &c)
{
  const bool in_the_middle = std::all_of(
      c.flaws.each.begin(), c.flaws.each.end(),
      [](const Flaw &flaw) { return !flaw.present() || flaw.line == FlawLine::centre; });
  const bool symmetric = c.coupon.offset == 0 && c.coupon.taper == 0 &&
                         c.friction.left_shoulder() == c.friction.shoulders &&
                         in_the_middle &&
                         (!c.weld.present() || c.weld.run == WeldRun::longitudinal ||
                          (c.weld.offset == 0 && c.weld.symmetric()));
  return symmetric && c.mesh.model == ModelChoice::automatic ? Extent::half : Extent::full;
}

StrengthSteps strength_steps(const Weld &weld, double plate)
{
  const double half = weld.transition / 2, haz = weld.haz_width;
  if (!weld.has_metal()) // heat alone: one band about the centre
    return {-half, -half, haz - std::min(half, haz / 2), haz + half};
  const double into_haz = haz > 0 ? std::min(half, haz / 4) : half;
  return {-std::min(half, WeldShape(weld, plate).narrowest() / 4), into_haz, haz - into_haz,
          haz + half};
}

// Crown and plate joined by an arc of radius r that touches both: its centre stands r above
// the plate and R + r from the crown's centre.
double CouponShape::Crown::end() const
{
  const double R = arc_radius(width, height), up = toe - (height - R);
  return std::sqrt((R + toe) * (R + toe) - up * up);
}

double CouponShape::Crown::above(double from_centre) const
{
  if (height <= 0)
    return 0;
  const double x = std::abs(from_centre), foot = end();
  if (x >= foot)
    return 0;
  const double R = arc_radius(width, height), joint = foot * R / (R + toe);
  return x < joint ? height - R + std::sqrt(R * R - x * x)
                   : toe - std::sqrt(toe * toe - (foot - x) * (foot - x));
}

CouponShape::CouponShape(const Case &c, Extent extent, double scale)
    : length_(c.coupon.length), thickness_(c.coupon.thickness), width_(c.coupon.width),
      offset_(c.coupon.offset), taper_(c.coupon.taper),
      centre_(c.weld.run == WeldRun::transverse ? c.coupon.offset + c.weld.offset
                                                : c.weld.offset),
      weld_(c.weld.present()), run_(c.weld.run), bend_(c.weld.bend),
      section_(c.weld, plate_thickness(c.weld, c.coupon))
{
  const bool face_low = bend_ == BendKind::face;
  for (const bool is_top : {true, false})
  {
    const Reinforcement &left_on = is_top == face_low ? c.weld.root_bead : c.weld.cap;
    (is_top ? top_ : bottom_)    = {left_on.width, left_on.height, c.weld.toe_radius};
  }
  if (!weld_)
    top_ = bottom_ = {};
  add_lines(c, extent, scale);
  add_seams(c, scale);
}

double CouponShape::across(const CouponPoint &s) const
{
  return (zones_along_x() ? s.x : s.z) - centre_;
}

double CouponShape::height(const CouponPoint &s) const
{
  return depth_along_y() ? s.y : s.z + width_ / 2;
}

bool CouponShape::has_narrow_cells() const
{
  return std::any_of(lines_.begin(), lines_.end(),
                     [](const MeshLine &line)
                     { return std::isfinite(line.cell) || std::isfinite(line.tip_cell); });
}

double CouponShape::line(const MeshLine &line, double height) const
{
  return line.flank ? centre_ + section_.line(*line.flank, height, line.distance)
                    : line.grid;
}

std::vector<double> CouponShape::levels() const
{
  std::vector<double> heights = {0};
  if (weld_)
    for (const double corner : section_.corners())
      heights.push_back(corner);
  heights.push_back(section_.plate());
  return heights;
}

/// How far a line strays between the faces [mm].
double CouponShape::lean(const MeshLine &mesh_line) const
{
  double low = 1e300, high = -1e300;
  for (const double height : levels())
  {
    low  = std::min(low, line(mesh_line, height));
    high = std::max(high, line(mesh_line, height));
  }
  return high - low;
}

/// The lines that each flank should have, from the inside out; flank and grid yet to be
/// set.
std::vector<MeshLine> CouponShape::wanted(const Weld &weld, double scale) const
{
  std::vector<MeshLine> edges, others;
  if (!weld_)
    return edges;
  const auto want = [](std::vector<MeshLine> &into, double distance, double cell)
  {
    MeshLine line;
    line.distance = distance;
    line.cell     = cell;
    into.push_back(line);
  };
  const StrengthSteps steps = strength_steps(weld, section_.plate());
  const bool          jumps = weld.transition <= 0;
  // Along a weld that runs with the coupon all zones are stretched alike, and no cell has
  // to follow how strain changes with strength.
  // In a side bend they lean across the width, where cells are long: half as many there
  // (see width_grading.cc).
  const double cells = bend_ == BendKind::side ? 2 : 4;
  const double fine  = jumps || !zones_along_x() ? std::numeric_limits<double>::infinity()
                                                 : weld.transition / cells * scale;
  if (weld.has_metal())
    want(edges, 0, fine);
  if (weld.haz_width > 0)
    want(edges, weld.haz_width, fine);
  if (!jumps && zones_along_x())
  {
    if (weld.has_metal())
      for (const double distance : {steps.weld_ends, steps.haz_begins})
        want(others, distance, fine);
    if (weld.haz_width > 0)
      for (const double distance : {steps.haz_ends, steps.base_begins})
        want(others, distance, fine);
  }
  for (const bool is_top : {true, false})
  {
    const Crown &crown = is_top ? top_ : bottom_;
    if (crown.height <= 0 || bend_ == BendKind::side)
      continue;
    const double face  = is_top ? thickness_ : 0.;
    const double where = section_.distance_on(Flank::right, crown.width / 2, face);
    if (where > -section_.narrowest() / 3)
      want(others, where, std::max(crown.toe / 2, 0.2) * scale);
  }
  // A line close to an edge of a zone, or to another, is no line of its own.
  for (const MeshLine &other : others)
  {
    const double least = std::min(fine, thickness_ / 8) / 4;
    const auto   near  = std::find_if(
           edges.begin(), edges.end(),
           [&](const MeshLine &edge)
           { return std::abs(edge.distance - other.distance) < std::max(close, least); });
    if (near == edges.end())
      edges.push_back(other);
    else
      near->cell = std::min(near->cell, other.cell);
  }
  std::sort(edges.begin(), edges.end(),
            [](const MeshLine &a, const MeshLine &b) { return a.distance < b.distance; });
  return edges;
}

void CouponShape::add_lines(const Case &c, Extent extent, double scale)
{
  const Weld  &weld  = c.weld;
  const double begin = !zones_along_x()         ? 0.
                       : extent == Extent::half ? 0.
                                                : offset_ - length_ / 2;
  const double end   = zones_along_x() ? offset_ + length_ / 2 : width_ / 2;
  // Half a coupon, or half its width.
  const bool one_side = !zones_along_x() || extent == Extent::half;

  std::vector<MeshLine> leaning;
  for (const Flank flank : {Flank::left, Flank::right})
  {
    if (flank == Flank::left && one_side)
      continue;
    std::vector<MeshLine> lines;
    for (MeshLine add : wanted(weld, scale))
    {
      add.flank   = flank;
      add.grid    = line(add, section_.plate() / 2);
      bool inside = true;
      for (const double height : levels())
        inside =
            inside && line(add, height) > begin + close && line(add, height) < end - close;
      if (inside)
        lines.push_back(add);
    }
    if (!lines.empty())
    {
      // Beyond the outermost line its lean fades within the same distance again.
      const MeshLine &last  = lines.back();
      const double    stray = lean(last);
      if (stray > close)
      {
        leaning_         = true;
        const double out = flank == Flank::left ? -1. : 1.;
        double       far = last.grid;
        for (const double height : levels())
          far = out * std::max(out * far, out * line(last, height));
        far += out * std::max(1.5 * stray, thickness_ / 4);
        if (far > begin + thickness_ / 4 && far < end - thickness_ / 4)
          lines.push_back(upright(far));
      }
    }
    leaning.insert(leaning.end(), lines.begin(), lines.end());
  }

  lines_ = leaning;
  lines_.push_back(upright(begin));
  lines_.push_back(upright(end));
  const bool flawed_centre = std::any_of(
      c.flaws.each.begin(), c.flaws.each.end(),
      [](const Flaw &flaw) { return flaw.present() && flaw.line == FlawLine::centre; });
  if (flawed_centre)
    lines_.push_back(upright(centre_));
  // The plunger's centre line, so that a symmetric case gets a symmetric mesh; not where it
  // would cross a leaning line.
  if (zones_along_x() && extent == Extent::full && begin < -close && end > close)
  {
    double low = 1e300, high = -1e300;
    for (const MeshLine &each : leaning)
      for (const double height : levels())
      {
        low  = std::min(low, line(each, height));
        high = std::max(high, line(each, height));
      }
    const bool in_the_middle = weld.symmetric() && std::abs(centre_) < close;
    const bool on_a_flaw     = flawed_centre && std::abs(centre_) < thickness_ / 8;
    if (!on_a_flaw && (!leaning_ || in_the_middle || low > close || high < -close))
      lines_.push_back(upright(0));
  }
  std::sort(lines_.begin(), lines_.end(),
            [](const MeshLine &a, const MeshLine &b) { return a.grid < b.grid; });
  lines_.erase(std::unique(lines_.begin(), lines_.end(),
                           [](const MeshLine &a, const MeshLine &b)
                           { return b.grid - a.grid < close; }),
               lines_.end());
}

/// The plate's flaws on their lines, and the cells that each wishes at its tips: a
/// sixteenth of its height. With a quarter it opened 12 % too little in a plastic bend
/// (elastic: the rung edge_crack).
void CouponShape::add_seams(const Case &c, double scale)
{
  for (std::size_t i = 0; i < most_flaws; ++i)
  {
    const Flaw &flaw = c.flaws.each[i];
    if (!flaw.present())
      continue;
    Seam seam;
    seam.flaw       = i;
    seam.span       = flaw_span(flaw, c.weld, thickness_);
    seam.width      = flaw.width;
    seam.plate      = thickness_;
    seam.cell       = scale * (seam.span.high - seam.span.low) / cells_along_flaw;
    const auto line = std::find_if(
        lines_.begin(), lines_.end(),
        [&](const MeshLine &each)
        {
          if (flaw.line == FlawLine::centre)
            return !each.flank && std::abs(each.grid - centre_) < close;
          return each.flank && std::abs(each.distance) < close &&
                 *each.flank == (flaw.line == FlawLine::left ? Flank::left : Flank::right);
        });
    if (line == lines_.end())
      throw std::logic_error("a flaw lies on no line of the mesh");
    line->tip_cell = std::min(line->tip_cell, seam.cell);
    seam.line      = static_cast<std::size_t>(line - lines_.begin());
    seam.grid      = line->grid;
    gaping_        = gaping_ || seam.width > 0;
    seams_.push_back(seam);
  }
}

CouponPoint CouponShape::parted(const CouponPoint &grid, Flank cell_side,
                                const CouponPoint &flat) const
{
  CouponPoint parted = flat;
  for (const Seam &seam : seams_)
  {
    const double gap = seam.half_gap(flat.y);
    if (gap <= 0)
      continue;
    // Cells beside the gap give way within some of its widths.
    const double reach = std::max(2 * seam.width, thickness_ / 4);
    const double off   = flat.x - line(lines_[seam.line], flat.y);
    const bool   on_it = std::abs(grid.x - seam.grid) < close;
    const double side  = on_it ? (cell_side == Flank::left ? -1. : 1.) : off < 0 ? -1. : 1.;
    parted.x += side * gap * std::max(0., 1 - std::abs(off) / reach);
  }
  return parted;
}

CouponPoint CouponShape::leaned(const CouponPoint &grid) const
{
  if (!leaning_)
    return grid;
  const double at = zones_along_x() ? grid.x : grid.z;
  std::size_t  i  = 1;
  while (i + 1 < lines_.size() && lines_[i].grid < at)
    ++i;
  const MeshLine &a = lines_[i - 1], &b = lines_[i];
  const double    share = (at - a.grid) / (b.grid - a.grid);
  const double    from = line(a, height(grid)), to = line(b, height(grid));
  CouponPoint     flat                = grid;
  (zones_along_x() ? flat.x : flat.z) = from + share * (to - from);
  return flat;
}

double CouponShape::taper(double x) const
{
  return taper_ * (x - offset_) / length_;
}

double CouponShape::top(double x) const
{
  return taper(x) + (zones_along_x() ? top_.above(x - centre_) : 0.);
}

double CouponShape::bottom(double x) const
{
  return zones_along_x() ? -bottom_.above(x - centre_) : 0.;
}

// A taper stretches all layers alike; a cap mostly those near its face, so that the fusion
// lines stay where they are in the plate.
CouponPoint CouponShape::shaped(const CouponPoint &flat) const
{
  const double up = flat.y / thickness_, t = taper(flat.x);
  CouponPoint  shaped = flat;
  const double cap = top(flat.x) - t, low = bottom(flat.x);
  if (cap != 0 || low != 0 || t != 0)
    shaped.y = flat.y + t * up + cap * up * up + low * (1 - up) * (1 - up);
  return shaped;
}

CouponPoint CouponShape::flattened(const CouponPoint &shaped_spot) const
{
  const double t = taper(shaped_spot.x), cap = top(shaped_spot.x) - t,
               low = bottom(shaped_spot.x);
  CouponPoint flat = shaped_spot;
  if (cap == 0 && low == 0 && t == 0)
    return flat;
  for (int i = 0; i < 30; ++i) // Newton on a smooth, rising function
  {
    const double up    = flat.y / thickness_;
    const double wrong = shaped(flat).y - shaped_spot.y;
    flat.y -= wrong / (1 + (t + 2 * cap * up - 2 * low * (1 - up)) / thickness_);
    if (std::abs(wrong) < 1e-12 * thickness_)
      break;
  }
  return flat;
}

double CouponShape::from_fusion(const CouponPoint &flat) const
{
  return weld_ ? section_.distance(across(flat), height(flat)) : 1e300;
}

int CouponShape::zone(const CouponPoint &flat) const
{
  return weld_ ? section_.zone(across(flat), height(flat)) : 0;
}
} // namespace throughbend
