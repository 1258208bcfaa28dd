#include "meshes/coupon/weld_shape.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
double WeldShape::Piece::distance(double across, double height) const
{
  return (across - start - slope * height) / std::sqrt(1 + slope * slope);
}

WeldShape::WeldShape(const Weld &weld, double plate)
    : plate_(plate), haz_(weld.haz_width), metal_(weld.has_metal())
{
  const double gap = weld.gap() / 2;
  left_ = right_ = {{gap, 0}};
  // A bevel that rises from a height with a slope, seen from the root.
  const bool root_low = weld.bend != BendKind::face;
  const auto bevel    = [&](double from, double slope)
  {
    // x = gap + slope (depth - from), depth = height above the root
    return root_low ? Piece{gap - slope * from, slope}
                    : Piece{gap + slope * (plate - from), -slope};
  };
  switch (weld.preparation)
  {
  case Preparation::square:
    break;
  case Preparation::single_v:
    right_.push_back(bevel(weld.root_face, std::tan(weld.included_angle / 2)));
    left_ = right_;
    break;
  case Preparation::double_v:
  {
    const double slope = std::tan(weld.included_angle / 2);
    right_.push_back(bevel((plate + weld.root_face) / 2, slope));
    right_.push_back(bevel((plate - weld.root_face) / 2, -slope));
    left_ = right_;
    break;
  }
  case Preparation::single_bevel:
    right_.push_back(bevel(weld.root_face, std::tan(weld.included_angle)));
    break;
  }
  for (std::vector<Piece> *flank : {&left_, &right_})
    for (Piece &piece : *flank)
      piece.start += weld.penetration * std::sqrt(1 + piece.slope * piece.slope);
}

double WeldShape::line(Flank flank, double height, double distance) const
{
  double farthest = -1e300;
  for (const Piece &piece : pieces(flank))
    farthest = std::max(farthest, piece.start + piece.slope * height +
                                      distance * std::sqrt(1 + piece.slope * piece.slope));
  return flank == Flank::left ? -farthest : farthest;
}

double WeldShape::distance_on(Flank flank, double across, double height) const
{
  double nearest = 1e300;
  for (const Piece &piece : pieces(flank))
    nearest =
        std::min(nearest, piece.distance(flank == Flank::left ? -across : across, height));
  return nearest;
}

double WeldShape::distance(double across, double height) const
{
  return std::max(distance_on(Flank::left, across, height),
                  distance_on(Flank::right, across, height));
}

int WeldShape::zone(double across, double height) const
{
  const double from_fusion = distance(across, height);
  if (metal_ && from_fusion < 0)
    return 2;
  return haz_ > 0 && from_fusion < haz_ ? 1 : 0;
}

std::vector<double> WeldShape::corners() const
{
  std::vector<double> heights;
  for (const std::vector<Piece> *flank : {&left_, &right_})
    for (std::size_t i = 1; i < flank->size(); ++i)
    {
      const Piece &straight = flank->front(), &bevel = (*flank)[i];
      const double height = (straight.start - bevel.start) / bevel.slope;
      if (height > 0 && height < plate_)
        heights.push_back(height);
    }
  std::sort(heights.begin(), heights.end());
  heights.erase(std::unique(heights.begin(), heights.end(),
                            [](double a, double b) { return b - a < 1e-9; }),
                heights.end());
  return heights;
}

double WeldShape::narrowest() const
{
  std::vector<double> heights = corners();
  heights.push_back(0);
  heights.push_back(plate_);
  double width = 1e300;
  for (const double height : heights)
    width = std::min(width, line(Flank::right, height, 0) - line(Flank::left, height, 0));
  return width;
}

std::vector<ZoneOutline> WeldShape::outlines() const
{
  // Between the turns of its pieces a line is straight.
  const auto turns = [&](Flank flank, double distance)
  {
    std::vector<double>       heights = {0, plate_};
    const std::vector<Piece> &all     = pieces(flank);
    for (std::size_t i = 0; i < all.size(); ++i)
      for (std::size_t j = 0; j < i; ++j)
      {
        const auto moved = [&](const Piece &p)
        { return p.start + distance * std::sqrt(1 + p.slope * p.slope); };
        const double height =
            (moved(all[j]) - moved(all[i])) / (all[i].slope - all[j].slope);
        if (height > 0 && height < plate_)
          heights.push_back(height);
      }
    std::sort(heights.begin(), heights.end());
    return heights;
  };
  const auto upward = [&](Flank flank, double distance)
  {
    std::vector<PlaneVector> points;
    for (const double height : turns(flank, distance))
      points.push_back({line(flank, height, distance), height});
    return points;
  };
  const auto between =
      [&](int zone, const std::vector<PlaneVector> &up, std::vector<PlaneVector> down)
  {
    ZoneOutline outline{zone, up};
    outline.points.insert(outline.points.end(), down.rbegin(), down.rend());
    return outline;
  };
  std::vector<ZoneOutline> outlines;
  if (metal_)
    outlines.push_back(between(2, upward(Flank::right, 0), upward(Flank::left, 0)));
  if (haz_ > 0)
  {
    outlines.push_back(between(1, upward(Flank::left, 0), upward(Flank::left, haz_)));
    outlines.push_back(between(1, upward(Flank::right, haz_), upward(Flank::right, 0)));
  }
  return outlines;
}
} // namespace throughbend
