#include "solver/mechanics/plastic_update.h"

#include <cassert>

namespace throughbend
{
template <int dim>
J2Energy plastic_stress(const Matrix3 &F, const PlasticState &old,
                        const PointMaterial &material, Matrix3 &kirchhoff,
                        PlasticState &state, J2Axes &axes, MaterialTangent<dim> *tangent)
{
  if (material.symmetric())
    return j2_stress<dim>(F, old, material, kirchhoff, state, axes);
  assert(tangent != nullptr && "a tangent that is not symmetric needs a place");
  const J2Result<dim> result = mixed_update<dim>(F, old, material);
  kirchhoff                  = result.kirchhoff;
  state                      = result.state;
  *tangent                   = result.tangent;
  return {result.elastic_energy, result.plastic_work};
}

template <int dim>
void plastic_tangent(const PointMaterial &material, const J2Axes &axes,
                     const MaterialTangent<dim> *left, MaterialTangent<dim> &tangent)
{
  if (material.symmetric())
    j2_tangent<dim>(axes, tangent);
  else
  {
    assert(left != nullptr && "a tangent that is not symmetric was left behind nowhere");
    tangent = *left;
  }
}

template <int dim>
J2Result<dim> plastic_update(const Matrix3 &F, const PlasticState &old,
                             const PointMaterial &material)
{
  return material.symmetric() ? j2_update<dim>(F, old, material)
                              : mixed_update<dim>(F, old, material);
}

template J2Energy    plastic_stress<2>(const Matrix3 &, const PlasticState &,
                                    const PointMaterial &, Matrix3 &, PlasticState &,
                                    J2Axes &, MaterialTangent<2> *);
template void        plastic_tangent<2>(const PointMaterial &, const J2Axes &,
                                 const MaterialTangent<2> *, MaterialTangent<2> &);
template J2Result<2> plastic_update<2>(const Matrix3 &, const PlasticState &,
                                       const PointMaterial &);
template J2Energy    plastic_stress<3>(const Matrix3 &, const PlasticState &,
                                    const PointMaterial &, Matrix3 &, PlasticState &,
                                    J2Axes &, MaterialTangent<3> *);
template void        plastic_tangent<3>(const PointMaterial &, const J2Axes &,
                                 const MaterialTangent<3> *, MaterialTangent<3> &);
template J2Result<3> plastic_update<3>(const Matrix3 &, const PlasticState &,
                                       const PointMaterial &);
} // namespace throughbend
