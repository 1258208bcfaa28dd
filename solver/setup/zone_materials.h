#pragma once
// What the coupon is made of, from the case: a material for each zone, and how strength
// passes from one to the next along a fusion line.

#include "inputs/case/case.h"
#include "solver/mechanics/point_material.h"

#include <vector>

namespace throughbend
{
/// Base, HAZ, weld: index = zone number; a HAZ that is graded is here as it is where it
/// ends. A fourth is the HAZ at the fusion line.
std::vector<ZoneMaterial> zone_materials(const Case &c);

/// Share of each point between those materials, when they do not simply follow the zones:
/// strength goes in a smooth step from one value to the next across `weld.transition` at a
/// fusion line and at the end of the HAZ (a kink would be one more place where strain
/// gathers), and straight within the HAZ.
class ZoneMixing
{
public:
  ZoneMixing() = default; ///< strength jumps
  explicit ZoneMixing(const Case &c);

  bool        present() const { return !knots_.empty(); }
  StrengthMix at(double from_fusion) const; ///< [mm]; only where present()

private:
  struct Knot
  {
    double at       = 0; ///< distance from the fusion line [mm]
    int    material = 0;
  };
  std::vector<Knot> knots_;
};
} // namespace throughbend
