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

// A cap in a leg is squeezed before the leg stands: from such an angle [deg] on, where its
// shoulder bears so many times what the other has borne at most. What it bears now says
// nothing: that falls as the other leg slides out. Seen: 1.6 to 4 with a cap that is
// thicker than the room, at most 1.2 without one there.
constexpr double cap_standing = 60, cap_share = 1.5;

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
  double largest() const { return largest_; } ///< so far [N]

private:
  double largest_ = 0, least_ = std::numeric_limits<double>::infinity();
};
} // namespace

std::vector<Nip> nipped_legs(const PassSetup &setup, const std::vector<PassSample> &samples)
{
  std::vector<Nip> nips(samples.size());
  const double     room = setup.least_room(), over_weld = setup.coupon.over_weld;
  const auto       is_tight = [&](const ToolSide leg)
  { return room <= tight * std::max(over_weld, setup.thickest_of_leg(leg)); };
  const bool left_tight = is_tight(ToolSide::left), right_tight = is_tight(ToolSide::right);
  if (!left_tight && !right_tight)
    return nips;
  const bool cap_fills = over_weld > setup.coupon.thickness && room < over_weld;
  const auto on_a_cap  = [&](const Leg &leg, const double force, const Watch &other)
  { return cap_fills && leg.angle > cap_standing && force > cap_share * other.largest(); };
  Watch left, right;
  for (std::size_t i = 0; i < samples.size(); ++i)
  {
    const PassSample &now = samples[i];
    if (now.kind != StepKind::push || now.tool(tool_at::plunger).normal <= 0)
      continue;
    const double on_left   = now.tool(tool_at::left_shoulder).normal,
                 on_right  = now.tool(tool_at::right_shoulder).normal;
    const bool left_rises  = left.rises(now.left.angle, on_left),
               right_rises = right.rises(now.right.angle, on_right);
    nips[i] = {(left_rises && left_tight) || on_a_cap(now.left, on_left, right),
               (right_rises && right_tight) || on_a_cap(now.right, on_right, left)};
  }
  return nips;
}
} // namespace throughbend
