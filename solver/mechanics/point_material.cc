#include "solver/mechanics/point_material.h"

#include <stdexcept>

namespace throughbend
{
namespace
{
KinematicHardening mixed(const KinematicHardening &a, const KinematicHardening &b,
                         const double share)
{
  if (a.present() && b.present() && a.rate != b.rate)
    throw std::invalid_argument("backstresses of different rates cannot be mixed");
  return {(1 - share) * a.saturation + share * b.saturation, a.present() ? a.rate : b.rate};
}
} // namespace

PointMaterial::PointMaterial(const ZoneMaterial &first, const ZoneMaterial &second,
                             const double share)
    : first_(&first), second_(share > 0 ? &second : nullptr), share_(share),
      kinematic_(share > 0 ? mixed(first.kinematic, second.kinematic, share)
                           : first.kinematic)
{
  if (!(share >= 0 && share <= 1))
    throw std::invalid_argument("a share lies between 0 and 1");
}

FlowState PointMaterial::flow(const double p) const
{
  const FlowState own = first_->flow.at(p);
  if (second_ == nullptr)
    return own;
  const FlowState other = second_->flow.at(p);
  return {own.stress + share_ * (other.stress - own.stress),
          own.slope + share_ * (other.slope - own.slope)};
}

FlowState PointMaterial::isotropic_part(const double p) const
{
  const FlowState whole = flow(p), shifted = kinematic_.monotonic(p);
  return {whole.stress - shifted.stress, whole.slope - shifted.slope};
}
} // namespace throughbend
