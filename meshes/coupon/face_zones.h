#pragma once
// Where the zones of a weld lie along the convex face of the flat coupon, from end to end.
// Geometry of the flush, flat coupon; in 3D of its mid-plane. Knows no strains.

#include "inputs/case/case.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// What a place on the convex face belongs to, from left to right.
enum class FaceZone
{
  left_base,
  left_haz,
  weld,
  right_haz,
  right_base
};

constexpr bool is_base(const FaceZone zone)
{
  return zone == FaceZone::left_base || zone == FaceZone::right_base;
}

/// One of them, on the flat coupon from its centre [mm].
struct FaceStretch
{
  FaceZone zone = FaceZone::left_base;
  double   from = 0, to = 0;

  double length() const { return to - from; }
};

/// From left to right without gaps; those of no length are left out. A coupon without a
/// weld is base, left and right of its centre. Of a longitudinal weld the mid-plane shows
/// one zone only.
std::vector<FaceStretch> face_stretches(const Case &c);

/// Middle of the weld metal on the convex face, of weld heat alone the middle of the bands
/// [mm]; nothing without a weld that crosses the coupon.
std::optional<double> weld_middle(const std::vector<FaceStretch> &stretches);
} // namespace throughbend
