#pragma once
// Places in a weld that did not fuse, as planes in the section: where each runs and between
// which depths. What a flaw does to a bend is found elsewhere; nothing here says whether a
// weld is fit for use.

#include "inputs/case/coupon.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>

namespace throughbend
{
/// The line of the section that a flaw lies on.
enum class FlawLine
{
  centre, ///< the middle of the weld's gap
  left,   ///< the left fusion line
  right   ///< the right fusion line
};

/// One plane that did not fuse, all across the coupon's width.
struct Flaw
{
  FlawLine line    = FlawLine::centre;
  BendKind surface = BendKind::root; ///< of the weld, from which depths count: face or root
  double   from    = 0;              ///< depth of the nearer edge [mm]; 0 = at the surface
  double   depth   = 0;              ///< depth of the deeper edge [mm]; 0 = no flaw
  double   width   = 0;              ///< gap between the lips at first [mm]; 0 = they touch

  bool present() const { return depth > 0; }

  /// Comes out at the surface that is stretched.
  bool breaks_convex(const Weld &weld) const { return from <= 0 && surface == weld.bend; }
  bool breaks_concave(const Weld &weld) const { return from <= 0 && surface != weld.bend; }
};

/// Heights above the convex face [mm].
struct FlawSpan
{
  double low = 0, high = 0;
};
inline FlawSpan flaw_span(const Flaw &flaw, const Weld &weld, double thickness)
{
  if (flaw.surface == weld.bend)
    return {flaw.from, flaw.depth};
  return {thickness - flaw.depth, thickness - flaw.from};
}

constexpr std::size_t most_flaws = 3;

struct Flaws
{
  std::array<Flaw, most_flaws> each{};

  bool present() const
  {
    return std::any_of(each.begin(), each.end(), [](const Flaw &f) { return f.present(); });
  }
};

/// Section of the case that describes flaw number i: "flaw", "flaw2", "flaw3".
inline std::string flaw_section(std::size_t i)
{
  return i == 0 ? "flaw" : "flaw" + std::to_string(i + 1);
}
} // namespace throughbend
