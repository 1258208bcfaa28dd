#pragma once
// One step of finite-strain J2 plasticity with isotropic hardening at one point: from the
// new deformation gradient and the old plastic state to stress, new state and the exact
// tangent. Works on 3x3 matrices always; dim = 2 says only that F has no out-of-plane shear
// (plane strain is a lift to 3D, never a 2D deviator). Knows no element.

#include "solver/mechanics/point_material.h"

namespace throughbend
{
/// Material part of the tangent: g : a[h] = sum g_ij tangent[i*dim+j][k*dim+l] h_kl for
/// velocity gradients g, h in the first dim directions, where a[h] = d tau along h [MPa].
template <int dim>
using MaterialTangent = std::array<std::array<double, dim * dim>, dim * dim>;

/// What j2_tangent() needs of an update, on the principal axes of the trial state.
struct J2Axes
{
  Matrix3               vectors{};            ///< columns: the axes
  std::array<double, 3> values{}, deviator{}; ///< trial b_e; deviator of its log strain [-]
  double                shrink = 1;           ///< deviator after over before the return [-]
  double                along  = 0;           ///< modulus along the deviator [MPa]
  double                shear = 0, bulk = 0;  ///< G, K [MPa]
};

/// Energies of one update, per reference volume [N mm/mm^3].
struct J2Energy
{
  double elastic = 0;
  double plastic = 0; ///< work of this step
};

template <int dim>
struct J2Result
{
  Matrix3      kirchhoff{}; ///< tau [MPa]
  PlasticState state;
  double       elastic_energy = 0; ///< per reference volume [N mm/mm^3]
  double       plastic_work   = 0; ///< of this step, per reference volume [N mm/mm^3]

  MaterialTangent<dim> tangent{};
};

/// j2_update() is the two halves below together; where only forces are asked for, the first
/// one is enough. `old` and `state` must not be the same object. A backstress is left out.
template <int dim>
J2Energy j2_stress(const Matrix3 &F, const PlasticState &old, const PointMaterial &material,
                   Matrix3 &kirchhoff, PlasticState &state, J2Axes &axes);

template <int dim>
void j2_tangent(const J2Axes &axes, MaterialTangent<dim> &tangent);

/// Sources: multiplicative split with logarithmic elastic strain and exponential map: Weber
/// & Anand (1990) Comput. Methods Appl. Mech. Eng. 79, 173; Simo (1992) ibid. 99, 61;
/// return mapping and its tangent in principal logs: de Souza Neto, Peric & Owen (2008)
/// Computational Methods for Plasticity, Box 7.5 and sec. 14.5.
/// Requires det F > 0. The plastic work is taken with the mean of old and new flow stress.
template <int dim>
J2Result<dim> j2_update(const Matrix3 &F, const PlasticState &old,
                        const PointMaterial &material);
} // namespace throughbend
