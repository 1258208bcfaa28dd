#include "solver/mechanics/j2_update.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace throughbend
{
namespace
{
/// A plastic increment and the flow curve where it ends.
struct Increment
{
  double    size = 0; ///< dg
  FlowState flow;
};

/// The increment dg >= 0 with q - 3 G dg = s(p + dg), by Newton kept inside a bracket.
Increment plastic_increment(double q, double p, double shear, const PointMaterial &material,
                            const FlowState &old)
{
  double    low = 0, high = (q - old.stress) / (3 * shear); // s never falls: root is below
  Increment dg{(q - old.stress) / (3 * shear + old.slope), {}};
  for (int i = 0;; ++i)
  {
    dg.flow             = material.flow(p + dg.size);
    const double excess = q - 3 * shear * dg.size - dg.flow.stress;
    if (std::abs(excess) <= 1e-13 * q || i == 60)
      return dg;
    (excess > 0 ? low : high) = dg.size;
    const double next         = dg.size + excess / (3 * shear + dg.flow.slope);
    dg.size                   = next > low && next < high ? next : (low + high) / 2;
  }
}

/// sum of values_a n_a n_a. dim = 2: the third axis is z itself.
template <int dim>
Symmetric3 from_axes(const std::array<double, 3> &values, const Matrix3 &n)
{
  const auto entry = [&](int i, int j)
  {
    double sum = 0;
    for (int a = 0; a < dim; ++a)
      sum += values[a] * n[i][a] * n[j][a];
    return sum;
  };
  if constexpr (dim == 2)
    return {entry(0, 0), entry(1, 1), values[2], entry(0, 1), 0., 0.};
  else
    return {entry(0, 0), entry(1, 1), entry(2, 2), entry(0, 1), entry(0, 2), entry(1, 2)};
}
} // namespace

template <int dim>
J2Energy j2_stress(const Matrix3 &F, const PlasticState &old, const PointMaterial &material,
                   Matrix3 &kirchhoff, PlasticState &state, J2Axes &axes)
{
  assert(determinant(F) > 0 && "a point is turned inside out");
  assert(&old != &state && "the old state must outlive the new one");
  const double    G = material.shear(), K = material.bulk();
  const Spectrum3 trial = spectrum<dim>(congruence(F, old.inverse_plastic_metric));

  std::array<double, 3> strain{};
  for (int a = 0; a < 3; ++a)
    strain[a] = std::log(trial.values[a]) / 2;
  const double volume = strain[0] + strain[1] + strain[2];
  double       square = 0;
  for (int a = 0; a < 3; ++a)
  {
    axes.deviator[a] = strain[a] - volume / 3;
    square += axes.deviator[a] * axes.deviator[a];
  }
  const double    q       = std::sqrt(6 * square) * G; // sqrt(3/2) |2 G dev e|
  const double    p_old   = old.equivalent_plastic_strain;
  const FlowState surface = material.flow(p_old);
  const bool      flowing = q > surface.stress;

  axes.vectors = trial.vectors;
  axes.values  = trial.values;
  axes.shear   = G;
  axes.bulk    = K;
  axes.shrink  = 1;
  axes.along   = 0;
  state        = old;
  J2Energy energy;
  if (flowing)
  {
    const Increment dg = plastic_increment(q, p_old, G, material, surface);
    axes.shrink        = 1 - 3 * G * dg.size / q;
    axes.along         = 6 * G * G * (dg.size / q - 1 / (3 * G + dg.flow.slope)) / square;

    state.equivalent_plastic_strain = p_old + dg.size;
    energy.plastic                  = (surface.stress + dg.flow.stress) / 2 * dg.size;
    // C_p^-1 = F^-1 b_e F^-T with b_e = exp(2 e_e) on the trial axes.
    std::array<double, 3> stretch{};
    for (int a = 0; a < 3; ++a)
      stretch[a] = std::exp(2 * (volume / 3 + axes.shrink * axes.deviator[a]));
    state.inverse_plastic_metric =
        congruence(inverse(F, determinant(F)), from_axes<dim>(stretch, trial.vectors));
  }
  std::array<double, 3> tau{};
  for (int a = 0; a < 3; ++a)
    tau[a] = K * volume + 2 * G * axes.shrink * axes.deviator[a];
  kirchhoff      = full(from_axes<dim>(tau, trial.vectors));
  energy.elastic = K * volume * volume / 2 + G * axes.shrink * axes.shrink * square;
  return energy;
}

template <int dim>
void j2_tangent(const J2Axes &axes, MaterialTangent<dim> &tangent)
{
  constexpr int n = dim * dim;
  const double  G = axes.shear, K = axes.bulk;
  const auto   &v    = axes.vectors;
  const auto    dyad = [&](int a, int b)
  {
    std::array<double, n> d{};
    for (int i = 0; i < dim; ++i)
      for (int j = 0; j < dim; ++j)
        d[i * dim + j] = v[i][a] * v[j][b];
    return d;
  };
  // On the principal axes: d tau_a / d e_b, and off them the moduli
  // (tau_a - tau_b)/(b_a - b_b). Each is a dyad times what it makes of h.
  std::array<std::array<double, n>, dim> own{};
  for (int a = 0; a < dim; ++a)
    own[a] = dyad(a, a);
  for (auto &row : tangent)
    row.fill(0.);
  for (int a = 0; a < dim; ++a)
  {
    std::array<double, n> of_h{};
    for (int b = 0; b < dim; ++b)
    {
      const double modulus = K + 2 * G * axes.shrink * ((a == b) - 1. / 3) +
                             axes.along * axes.deviator[a] * axes.deviator[b];
      for (int s = 0; s < n; ++s)
        of_h[s] += modulus * own[b][s];
    }
    for (int r = 0; r < n; ++r)
      for (int s = 0; s < n; ++s)
        tangent[r][s] += own[a][r] * of_h[s];
  }
  for (int a = 0; a < dim; ++a)
    for (int b = 0; b < a; ++b)
    {
      const double modulus =
          G * axes.shrink * log_difference_quotient(axes.values[a], axes.values[b]);
      const std::array<double, n> ab = dyad(a, b), ba = dyad(b, a);
      std::array<double, n>       both{}, of_h{};
      for (int s = 0; s < n; ++s)
      {
        both[s] = ab[s] + ba[s];
        of_h[s] = modulus * (axes.values[b] * ab[s] + axes.values[a] * ba[s]);
      }
      for (int r = 0; r < n; ++r)
        for (int s = 0; s < n; ++s)
          tangent[r][s] += both[r] * of_h[s];
    }
}

template <int dim>
J2Result<dim> j2_update(const Matrix3 &F, const PlasticState &old,
                        const PointMaterial &material)
{
  J2Result<dim>  result;
  J2Axes         axes;
  const J2Energy energy =
      j2_stress<dim>(F, old, material, result.kirchhoff, result.state, axes);
  result.elastic_energy = energy.elastic;
  result.plastic_work   = energy.plastic;
  j2_tangent<dim>(axes, result.tangent);
  return result;
}

template J2Energy j2_stress<2>(const Matrix3 &, const PlasticState &, const PointMaterial &,
                               Matrix3 &, PlasticState &, J2Axes &);
template J2Energy j2_stress<3>(const Matrix3 &, const PlasticState &, const PointMaterial &,
                               Matrix3 &, PlasticState &, J2Axes &);
template void     j2_tangent<2>(const J2Axes &, MaterialTangent<2> &);
template void     j2_tangent<3>(const J2Axes &, MaterialTangent<3> &);
template J2Result<2> j2_update<2>(const Matrix3 &, const PlasticState &,
                                  const PointMaterial &);
template J2Result<3> j2_update<3>(const Matrix3 &, const PlasticState &,
                                  const PointMaterial &);
} // namespace throughbend
