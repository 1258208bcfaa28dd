#pragma once
// The update of one point, whatever it is made of. Chooses between the laws; each is in a
// file of its own. Cells whose points have no backstress take j2_lanes instead, four points
// at once.

#include "solver/mechanics/mixed_update.h"

namespace throughbend
{
/// From the new deformation gradient F and the old state to stress, new state and the exact
/// tangent. Requires det F > 0.
template <int dim>
J2Result<dim> plastic_update(const Matrix3 &F, const PlasticState &old,
                             const PointMaterial &material);
} // namespace throughbend
