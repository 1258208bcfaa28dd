#include "meshes/coupon/face_zones.h"

#include "meshes/coupon/weld_shape.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
std::vector<FaceStretch> face_stretches(const Case &c)
{
  const double    half = c.coupon.length / 2;
  const Weld     &weld = c.weld;
  const WeldShape shape(weld, plate_thickness(weld, c.coupon));
  const bool      side = weld.bend == BendKind::side;
  // In a side bend the weld's depth runs across the width: the mid-plane cuts its middle.
  const double height = side ? shape.plate() / 2 : 0.;

  std::vector<FaceStretch> stretches;
  if (!weld.present())
    stretches = {{FaceZone::left_base, -half, 0}, {FaceZone::right_base, 0, half}};
  else if (weld.run == WeldRun::longitudinal)
    stretches = {
        {shape.zone(0, 0) == 2 ? FaceZone::weld : FaceZone::left_haz, -half, half}};
  else
  {
    const auto line = [&](Flank flank, double distance)
    { return std::clamp(weld.offset + shape.line(flank, height, distance), -half, half); };
    const double left = line(Flank::left, 0), right = line(Flank::right, 0);
    const double before = line(Flank::left, weld.haz_width),
                 behind = line(Flank::right, weld.haz_width);
    stretches           = {{FaceZone::left_base, -half, before},
                           {FaceZone::left_haz, before, left},
                           {FaceZone::weld, left, right},
                           {FaceZone::right_haz, right, behind},
                           {FaceZone::right_base, behind, half}};
  }
  constexpr double nothing = 1e-9; // [mm]
  stretches.erase(std::remove_if(stretches.begin(), stretches.end(),
                                 [](const FaceStretch &s) { return s.length() < nothing; }),
                  stretches.end());
  return stretches;
}

std::optional<double> weld_middle(const std::vector<FaceStretch> &stretches)
{
  if (stretches.size() < 2)
    return std::nullopt;
  double low = 1e300, high = -1e300;
  for (const FaceStretch &s : stretches)
    if (s.zone == FaceZone::weld)
      return (s.from + s.to) / 2;
    else if (s.zone == FaceZone::left_haz || s.zone == FaceZone::right_haz)
    {
      low  = std::min(low, s.from);
      high = std::max(high, s.to);
    }
  return low < high ? std::optional<double>((low + high) / 2) : std::nullopt;
}
} // namespace throughbend
