#pragma once
// The one way to update a point, whatever it is made of: stress first, the tangent only
// when it is asked for. Chooses between the laws; each is in a file of its own.

#include "solver/mechanics/mixed_update.h"

namespace throughbend
{
/// From the new deformation gradient F and the old state to stress and new state. Leaves
/// behind what plastic_tangent() needs: in `axes`, or where the material's tangent is not
/// symmetric the tangent itself in `tangent`, which may be null otherwise. `old` and
/// `state` must not be the same object. Requires det F > 0.
template <int dim>
J2Energy plastic_stress(const Matrix3 &F, const PlasticState &old,
                        const PointMaterial &material, Matrix3 &kirchhoff,
                        PlasticState &state, J2Axes &axes, MaterialTangent<dim> *tangent);

/// The exact tangent of that update, from what it has left behind.
template <int dim>
void plastic_tangent(const PointMaterial &material, const J2Axes &axes,
                     const MaterialTangent<dim> *left, MaterialTangent<dim> &tangent);

/// Both at once.
template <int dim>
J2Result<dim> plastic_update(const Matrix3 &F, const PlasticState &old,
                             const PointMaterial &material);
} // namespace throughbend
