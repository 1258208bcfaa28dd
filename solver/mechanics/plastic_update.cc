#include "solver/mechanics/plastic_update.h"

namespace throughbend
{
template <int dim>
J2Result<dim> plastic_update(const Matrix3 &F, const PlasticState &old,
                             const PointMaterial &material)
{
  return material.symmetric() ? j2_update<dim>(F, old, material)
                              : mixed_update<dim>(F, old, material);
}

template J2Result<2> plastic_update<2>(const Matrix3 &, const PlasticState &,
                                       const PointMaterial &);
template J2Result<3> plastic_update<3>(const Matrix3 &, const PlasticState &,
                                       const PointMaterial &);
} // namespace throughbend
