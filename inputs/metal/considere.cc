#include "inputs/metal/considere.h"

#include <cmath>

namespace throughbend
{
TensileStrength considere(const FlowCurve &curve)
{
  constexpr int    points      = 2000;
  constexpr double last        = 1;
  const auto       engineering = [&](double p) { return curve.stress(p) * std::exp(-p); };

  // A curve may have more than one maximum (a table, a rule beyond its last strain): the
  // coarse look finds the highest, the fine one its place.
  TensileStrength best{engineering(0), 0};
  for (int i = 1; i <= points; ++i)
    if (const double p = last * i / points; engineering(p) > best.stress)
      best = {engineering(p), p};
  double low  = std::max(0., best.strain - last / points);
  double high = std::min(last, best.strain + last / points);
  for (int i = 0; i < 60; ++i)
  {
    const double left  = low + (high - low) / 3;
    const double right = high - (high - low) / 3;
    (engineering(left) < engineering(right) ? low : high) =
        engineering(left) < engineering(right) ? left : right;
  }
  const double p = (low + high) / 2;
  return engineering(p) > best.stress ? TensileStrength{engineering(p), p} : best;
}
} // namespace throughbend
