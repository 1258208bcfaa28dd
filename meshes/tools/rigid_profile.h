#pragma once
// The outline of a rigid tool seen from the side: a convex chain of straight lines and
// arcs, tangent-continuous, solid on its inside. Answers where a point stands relative to
// it. Knows nothing of what the tool is for, nor of its motion (see
// solver/mechanics/rigid_tool).

#include <algorithm>
#include <vector>

namespace throughbend
{
/// A point or direction in the plane of the pass: x along the flat coupon, y up [mm].
struct PlaneVector
{
  double x = 0, y = 0;
};
inline PlaneVector operator+(PlaneVector a, PlaneVector b)
{
  return {a.x + b.x, a.y + b.y};
}
inline PlaneVector operator-(PlaneVector a, PlaneVector b)
{
  return {a.x - b.x, a.y - b.y};
}
inline PlaneVector operator*(double s, PlaneVector a)
{
  return {s * a.x, s * a.y};
}
inline double dot(PlaneVector a, PlaneVector b)
{
  return a.x * b.x + a.y * b.y;
}
double length(PlaneVector a);

/// Where a point stands relative to a profile. Ties at a corner go to the arc.
struct Proximity
{
  double      gap = 0;       ///< distance to the outline [mm], < 0 inside the tool
  PlaneVector normal;        ///< unit, out of the tool
  double      curvature = 0; ///< of the outline at the foot point [1/mm], >= 0 (convex)
  double      arc_length =
      0; ///< of the foot point along the outline [mm], grows along (-n_y, n_x)
};

/// A corner of the sharp polygon, and the radius that rounds it.
struct Corner
{
  PlaneVector point;
  double      radius = 0; ///< [mm], >= 0
};

class RigidProfile
{
public:
  /// Convex polygon, corners counter-clockwise, each rounded by its radius. The outline's
  /// arc length starts in the middle of the line from the last corner to the first, so put
  /// a stretch that nothing touches there. Throws std::invalid_argument when a corner is
  /// not convex or neighbouring radii do not fit on their common line.
  static RigidProfile rounded(const std::vector<Corner> &corners);

  /// Full circle; its arc length starts at the bottom.
  static RigidProfile disc(PlaneVector centre, double radius);

  Proximity proximity(PlaneVector point) const;

  /// False when the point is certainly farther from the outline than `reach` [mm].
  bool within_reach(PlaneVector point, double reach) const
  {
    return point.x > low_.x - reach && point.x < high_.x + reach &&
           point.y > low_.y - reach && point.y < high_.y + reach;
  }

  /// How far a point may go, any way, before within_reach() is true; <= 0: it is [mm].
  double out_of_reach(PlaneVector point, double reach) const
  {
    return std::max({low_.x - reach - point.x, point.x - high_.x - reach,
                     low_.y - reach - point.y, point.y - high_.y - reach});
  }

  /// Where the outline is at an arc length [mm], between its start and its end.
  PlaneVector point_at(double arc_length) const;

  /// Radius of its sharpest arc, infinity without any [mm].
  double sharpest() const;

  /// Points along the outline for drawing, arcs cut into pieces of at most `angle` [rad].
  std::vector<PlaneVector> outline(double angle) const;

private:
  struct Line
  {
    PlaneVector start, direction, normal;
    double      length = 0, arc_length = 0;
  };
  struct Arc
  {
    PlaneVector centre;
    double      radius = 0, start_angle = 0, sweep = 0, arc_length = 0;
    PlaneVector from, to; ///< unit, from the centre to its first and last point
  };
  enum class Side
  {
    within,
    outside,
    unsure
  };
  static Arc        arc(PlaneVector centre, double radius, double start_angle, double sweep,
                        double arc_length);
  static double     past(const Arc &arc, PlaneVector q);
  static Side       side(const Arc &arc, PlaneVector q);
  std::vector<Line> lines_;
  std::vector<Arc>  arcs_;
  PlaneVector       low_, high_; ///< bounding box
};
} // namespace throughbend
