#pragma once
// What the convex face of a model with width shows beside the mid-width, and of which metal
// each place of it is.

#include "solver/outcome/face_figures.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <utility>
#include <vector>

namespace throughbend
{
using Rows = std::vector<SurfaceRow>;

/// The metals of the flat convex face.
class FaceMetals
{
public:
  explicit FaceMetals(const Case &c)
      : shape_(c, Extent::full), stretches_(face_stretches(c)), centre_(c.coupon.offset),
        half_width_(c.coupon.width / 2), half_length_(c.coupon.length / 2)
  {
  }

  /// Of a place: along from the coupon's centre, across from the mid-width [mm].
  FaceZone at(double position, double across) const
  {
    // A zone that ends at the edge reaches it.
    constexpr double within = 1 - 1e-6;
    const double     inside = std::min(across, within * half_width_);
    switch (shape_.zone({centre_ + position, 0, inside}))
    {
    case 2:
      return FaceZone::weld;
    case 1:
      return position_is_left_of_weld(position) ? FaceZone::left_haz : FaceZone::right_haz;
    default:
      return position_is_left_of_weld(position) ? FaceZone::left_base
                                                : FaceZone::right_base;
    }
  }

  /// Those between two places along, one of each kind.
  std::vector<FaceZone> between(double from, double to) const
  {
    constexpr int         along = 400, across = 100;
    std::vector<FaceZone> found;
    for (int i = 0; i <= along; ++i)
      for (int j = 0; j <= across; ++j)
      {
        const FaceZone here = at(from + (to - from) * i / along, half_width_ * j / across);
        if (std::none_of(found.begin(), found.end(),
                         [here](FaceZone zone)
                         { return zone_words(zone) == zone_words(here); }))
          found.push_back(here);
      }
    return found;
  }
  double half_width() const { return half_width_; }

  /// Weld and HAZ along the free edge, from left to right, to a hundredth of a millimetre.
  std::vector<EdgeStretch> along_edge() const
  {
    constexpr double         step = 0.01; // [mm]
    std::vector<EdgeStretch> found;
    const long               n = std::lround(half_length_ / step);
    for (long i = -n; i <= n; ++i)
    {
      const double   place = static_cast<double>(i) * step;
      const FaceZone zone  = at(place, half_width_);
      if (is_base(zone))
        continue;
      if (found.empty() || found.back().zone != zone)
        found.push_back({zone, place, place});
      found.back().to = place;
    }
    return found;
  }

private:
  bool position_is_left_of_weld(double position) const
  {
    return position < weld_middle(stretches_).value_or(0);
  }

  CouponShape              shape_;
  std::vector<FaceStretch> stretches_;
  double                   centre_, half_width_, half_length_;
};

/// The bend at mid-width [mm], and from which elongation on a place counts as bent [-].
struct BentStretch
{
  double from = unknown_figure, to = unknown_figure, least = 0;
};

/// A figure of a row: where a line along the face has it, or what its elongation is there.
using OfRow = std::function<double(const SurfaceRow &)>;

/// The bend along one line of a face: from the outermost row on the left whose elongation
/// is `least` or more to that on the right, and on to where the straight line to the next
/// row outward crosses the least [mm]. NaN where nothing is bent.
std::pair<double, double> bend_ends(const Rows &face, const OfRow &place,
                                    const OfRow &elongation, double least);

/// Of rows that have a width, from left to right.
AcrossFigures across_of(const Rows &face, const FaceMetals &metals,
                        const BentStretch &bend);
} // namespace throughbend
