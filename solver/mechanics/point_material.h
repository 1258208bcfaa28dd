#pragma once
// What a point of the coupon is made of: the metal of one zone, or of two mixed where
// strength passes from one to the other. Says what its update needs: how many numbers it
// keeps, and whether its tangent is symmetric. Knows no element.

#include "inputs/metal/kinematic_hardening.h"
#include "inputs/metal/material.h"
#include "solver/mechanics/small_matrix.h"

#include <cstddef>

namespace throughbend
{
/// What plastic flow has left behind at a point.
struct PlasticState
{
  Symmetric3 inverse_plastic_metric    = unit_symmetric3; ///< C_p^-1 [-]
  double     equivalent_plastic_strain = 0;               ///< [-]
  Symmetric3 back_strain{}; ///< of the backstress, turned back [-]; see mixed_update
};

/// Elastic constants and the flow curve of the zone that a point belongs to.
struct ZoneMaterial
{
  double             shear = 0, bulk = 0; ///< G, K [MPa]
  FlowCurve          flow;
  KinematicHardening kinematic{};
};

/// What a point is made of where strength passes from one zone to the next: indices of two
/// materials and the share of the second one's strength.
struct StrengthMix
{
  int    first = 0, second = 0;
  double share = 0; ///< [-] from 0 to 1
};

/// One law, chosen for the point. Refers to the zones' materials, which must outlive it.
class PointMaterial
{
public:
  PointMaterial(const ZoneMaterial &zone) // NOLINT: a zone is a material
      : first_(&zone), kinematic_(zone.kinematic)
  {
  }
  PointMaterial(ZoneMaterial &&) = delete; // would not outlive it

  /// Flow stress (1 - share) first + share second, and the backstress alike; elasticity is
  /// the first one's. Throws std::invalid_argument when both have a backstress and these
  /// saturate at different rates, or when the share is not between 0 and 1.
  PointMaterial(const ZoneMaterial &first, const ZoneMaterial &second, double share);

  double           shear() const { return first_->shear; } ///< G [MPa]
  double           bulk() const { return first_->bulk; }   ///< K [MPa]
  FlowState        flow(double p) const;                   ///< stress [MPa] and its slope
  const FlowCurve &first_flow() const { return first_->flow; }
  const FlowCurve &second_flow() const ///< the first one's where none is mixed
  {
    return second_ == nullptr ? first_->flow : second_->flow;
  }
  double                    share() const { return share_; } ///< of the second [-]
  const KinematicHardening &kinematic() const { return kinematic_; }

  /// What is left of the flow curve for the yield surface's size, and its slope.
  FlowState isotropic_part(double p) const;

  /// Whether the tangent of its update is symmetric: not with a backstress.
  bool symmetric() const { return !kinematic_.present(); }

  /// The same zones, mixed alike.
  friend bool operator==(const PointMaterial &a, const PointMaterial &b)
  {
    return a.first_ == b.first_ && a.second_ == b.second_ && a.share_ == b.share_;
  }

  /// Numbers of a PlasticState that its update changes; the rest stays as it is.
  std::size_t state_size() const { return symmetric() ? 7 : 13; }

private:
  const ZoneMaterial *first_;
  const ZoneMaterial *second_ = nullptr; ///< none: the first one alone
  double              share_  = 0;       ///< of the second [-]
  KinematicHardening  kinematic_;
};
} // namespace throughbend
