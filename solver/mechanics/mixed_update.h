#pragma once
// One step of finite-strain J2 plasticity where part of the hardening is a saturating
// backstress, at one point: the counterpart of j2_update for a material with
// kinematic hardening. It is a path of its own, so that others pay nothing for it.

#include "solver/mechanics/j2_update.h"

namespace throughbend
{
/// Logarithmic elastic strain with a backstress: Eterovic & Bathe (1990) Int. J. Numer.
/// Methods Eng. 30, 1099. With e = ln(b_e)/2, N = sqrt(3/2) times the unit normal, c = 2/3
/// C:
///   e' = e'_trial - dp N,   beta = k beta_old + (1 - k)/rate N,   k = exp(-rate dp),
///   X = c beta,   sqrt(3/2) |2 G e' - X| = flow curve(p) - saturation (1 - exp(-rate p)),
/// the exact integral of Armstrong & Frederick's law along a constant N. The back strain
/// beta is kept turned back and moves with the rotation R of F = R U (Green & Naghdi 1965,
/// Arch. Ration. Mech. Anal. 18, 251; Dienes 1979, Acta Mech. 32, 217: no oscillation in
/// simple shear). b_e = exp(2 e) neglects commutators of e with the plastic step: squares
/// of elastic strains, and cubes of a step's strain. No plastic spin; no cyclic memory.
///
/// The tangent is exact and in general not symmetric. plastic_work counts all work on
/// plastic flow, of which back_energy() is locked in and comes back on reversal.
/// Requires det F > 0, a backstress of the material's and C < G.
template <int dim>
J2Result<dim> mixed_update(const Matrix3 &F, const PlasticState &old,
                           const PointMaterial &material);

/// Energy locked in by the backstress, per reference volume [N mm/mm^3].
double back_energy(const PlasticState &state, const PointMaterial &material);
} // namespace throughbend
