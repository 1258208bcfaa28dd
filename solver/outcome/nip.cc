#include "solver/outcome/nip.h"

#include <algorithm>
#include <limits>

namespace throughbend
{
namespace
{
// Room over thickness: with more, the curl of no leg was seen to fill it; the mesh of a leg
// takes the same (meshes/coupon/leg_reach).
constexpr double tight    = 1.03;
constexpr double standing = 85; // [deg] from flat; from here on bending asks for less

/// Watches the force of one shoulder on its leg.
class Watch
{
public:
  /// Whether it has risen again [N].
  bool rises(const double angle, const double force)
  {
    constexpr double of_least = 1.15, of_largest = 0.05; // more than a ripple
    largest_ = std::max(largest_, force);
    if (angle < standing)
      return false;
    least_ = std::min(least_, force);
    return force > of_least * least_ && force > least_ + of_largest * largest_;
  }

private:
  double largest_ = 0, least_ = std::numeric_limits<double>::infinity();
};
} // namespace

std::vector<Nip> nipped_legs(const PassSetup &setup, const std::vector<PassSample> &samples)
{
  std::vector<Nip> nips(samples.size());
  if (setup.least_room() > tight * setup.coupon.thickness)
    return nips;
  Watch left, right;
  for (std::size_t i = 0; i < samples.size(); ++i)
  {
    const PassSample &now = samples[i];
    if (now.kind != StepKind::push || now.tool(tool_at::plunger).normal <= 0)
      continue;
    nips[i].left  = left.rises(now.left.angle, now.tool(tool_at::left_shoulder).normal);
    nips[i].right = right.rises(now.right.angle, now.tool(tool_at::right_shoulder).normal);
  }
  return nips;
}
} // namespace throughbend
