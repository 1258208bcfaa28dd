#include "solver/mechanics/mixed_update.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace throughbend
{
namespace
{
const double root = std::sqrt(1.5);

double inner(const Matrix3 &a, const Matrix3 &b)
{
  double sum = 0;
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      sum += a[i][j] * b[i][j];
  return sum;
}

/// x a + y b
Matrix3 sum(double x, const Matrix3 &a, double y, const Matrix3 &b)
{
  Matrix3 c{};
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      c[i][j] = x * a[i][j] + y * b[i][j];
  return c;
}

Matrix3 product(const Matrix3 &a, const Matrix3 &b)
{
  Matrix3 c{};
  for (int i = 0; i < 3; ++i)
    for (int k = 0; k < 3; ++k)
      for (int j = 0; j < 3; ++j)
        c[i][j] += a[i][k] * b[k][j];
  return c;
}

Matrix3 transposed(const Matrix3 &a)
{
  return {{{a[0][0], a[1][0], a[2][0]},
           {a[0][1], a[1][1], a[2][1]},
           {a[0][2], a[1][2], a[2][2]}}};
}

double trace(const Matrix3 &a)
{
  return a[0][0] + a[1][1] + a[2][2];
}

Matrix3 deviator(Matrix3 a)
{
  const double mean = trace(a) / 3;
  for (int i = 0; i < 3; ++i)
    a[i][i] -= mean;
  return a;
}

/// sum of values_a n_a n_a
Matrix3 from_axes(const std::array<double, 3> &values, const Matrix3 &n)
{
  Matrix3 m{};
  for (int a = 0; a < 3; ++a)
    for (int i = 0; i < 3; ++i)
      for (int j = 0; j < 3; ++j)
        m[i][j] += values[a] * n[i][a] * n[j][a];
  return m;
}

/// The trial state as functions of F, and how they change along velocity gradients.
template <int dim>
class Trial
{
public:
  Trial(const Matrix3 &F, const PlasticState &old)
      : elastic_(spectrum<dim>(congruence(F, old.inverse_plastic_metric))),
        total_(spectrum<dim>(congruence(F, unit_symmetric3)))
  {
    std::array<double, 3> log{}, inverse_stretch{};
    for (int a = 0; a < 3; ++a)
    {
      log[a]             = std::log(elastic_.values[a]) / 2;
      stretch_[a]        = std::sqrt(total_.values[a]);
      inverse_stretch[a] = 1 / stretch_[a];
    }
    strain      = from_axes(log, elastic_.vectors);
    rotation    = product(from_axes(inverse_stretch, total_.vectors), F);
    back_strain = product(rotation, product(full(old.back_strain), transposed(rotation)));
  }

  /// Change of the strain along h = e_k e_l: D(ln(b)/2)[h b + b h^T].
  Matrix3 strain_rate(int k, int l) const
  {
    const Matrix3 &n = elastic_.vectors;
    const auto    &b = elastic_.values;
    Matrix3        rate{};
    for (int a = 0; a < dim; ++a)
      for (int c = 0; c < dim; ++c)
        rate[a][c] = log_difference_quotient(b[a], b[c]) / 2 *
                     (n[k][a] * n[l][c] * b[c] + n[k][c] * n[l][a] * b[a]);
    return product(n, product(rate, transposed(n)));
  }

  /// Change of the back strain along h: W beta - beta W, with the spin W of R from
  /// W V + V W = h V - V h^T.
  Matrix3 back_strain_rate(int k, int l) const
  {
    const Matrix3 &n = total_.vectors;
    Matrix3        spin{};
    for (int a = 0; a < dim; ++a)
      for (int c = 0; c < dim; ++c)
        spin[a][c] = (n[k][a] * n[l][c] * stretch_[c] - n[k][c] * n[l][a] * stretch_[a]) /
                     (stretch_[a] + stretch_[c]);
    spin = product(n, product(spin, transposed(n)));
    return sum(1, product(spin, back_strain), -1, product(back_strain, spin));
  }

  Matrix3 strain{};      ///< ln(b_e)/2 [-]
  Matrix3 rotation{};    ///< R of F = R U
  Matrix3 back_strain{}; ///< old, turned along with R [-]

private:
  Spectrum3             elastic_, total_;
  std::array<double, 3> stretch_{};
};

/// The return along the normal of the shifted stress, at a plastic increment dp.
struct Return
{
  double  decay = 1;  ///< k = exp(-rate dp)
  double  gain  = 0;  ///< (1 - k) / rate
  Matrix3 eta{};      ///< 2 G e'_trial - c k beta_trial [MPa]
  double  size   = 0; ///< sqrt(3/2) |eta| [MPa]
  double  excess = 0; ///< of the equivalent shifted stress over the yield surface [MPa]
  double  slope  = 0; ///< - d excess / d dp [MPa], at least 3 G - C
};

Return return_at(double dp, const Matrix3 &trial_stress, const Matrix3 &back_strain,
                 double p_old, const PointMaterial &material)
{
  const double C = material.kinematic().modulus(), G = material.shear(),
               rate       = material.kinematic().rate;
  const FlowState surface = material.isotropic_part(p_old + dp);
  Return          r;
  r.decay                = std::exp(-rate * dp);
  r.gain                 = -std::expm1(-rate * dp) / rate;
  r.eta                  = sum(1, trial_stress, -2 * C / 3 * r.decay, back_strain);
  const double size      = std::sqrt(inner(r.eta, r.eta));
  r.size                 = root * size;
  r.excess               = r.size - 3 * G * dp - C * r.gain - surface.stress;
  const double alignment = size > 0 ? inner(r.eta, back_strain) / size : 0;
  r.slope =
      3 * G + C * r.decay + surface.slope - root * 2 * C / 3 * rate * r.decay * alignment;
  return r;
}

/// The plastic increment whose excess vanishes, by Newton kept inside a bracket.
double plastic_increment(const Return &start, const Matrix3 &trial_stress,
                         const Matrix3 &back_strain, double p_old,
                         const PointMaterial &material)
{
  // The excess at `high` is negative: its size is at most that of both parts together.
  const double reach = root * (std::sqrt(inner(trial_stress, trial_stress)) +
                               2 * material.kinematic().modulus() / 3 *
                                   std::sqrt(inner(back_strain, back_strain)));
  double       low = 0, high = reach / (3 * material.shear());
  double       dp = std::min(start.excess / start.slope, high);
  for (int i = 0; i < 60; ++i)
  {
    const Return r = return_at(dp, trial_stress, back_strain, p_old, material);
    if (std::abs(r.excess) <= 1e-13 * reach)
      break;
    (r.excess > 0 ? low : high) = dp;
    const double next           = dp + r.excess / r.slope;
    dp                          = next > low && next < high ? next : (low + high) / 2;
  }
  return dp;
}
} // namespace

template <int dim>
J2Result<dim> mixed_update(const Matrix3 &F, const PlasticState &old,
                           const PointMaterial &material)
{
  assert(determinant(F) > 0 && "a point is turned inside out");
  assert(!material.symmetric() && "j2_update is the law of a metal without a backstress");
  assert(material.kinematic().modulus() < material.shear() &&
         "the update may have no root");
  const double     G = material.shear(), K = material.bulk();
  const double     C = material.kinematic().modulus(), rate = material.kinematic().rate;
  const double     p_old = old.equivalent_plastic_strain;
  const Trial<dim> trial(F, old);
  const double     volume       = trace(trial.strain);
  const Matrix3    trial_stress = sum(2 * G, deviator(trial.strain), 0, {});

  Return     r     = return_at(0, trial_stress, trial.back_strain, p_old, material);
  const bool flows = r.excess > 0;
  double     dp    = 0;
  if (flows)
  {
    dp = plastic_increment(r, trial_stress, trial.back_strain, p_old, material);
    r  = return_at(dp, trial_stress, trial.back_strain, p_old, material);
  }
  const Matrix3 normal = flows ? sum(1.5 / r.size, r.eta, 0, {}) : Matrix3{}; // N

  J2Result<dim> result;
  const Matrix3 strain = sum(1, trial.strain, -dp, normal);
  const Matrix3 stress = sum(1, trial_stress, -2 * G * dp, normal);
  result.kirchhoff     = stress;
  for (int i = 0; i < 3; ++i)
    result.kirchhoff[i][i] += K * volume;
  result.elastic_energy = K * volume * volume / 2 + inner(stress, stress) / (4 * G);

  result.state = old;
  if (flows)
  {
    const Matrix3 back = sum(r.decay, trial.back_strain, r.gain, normal);
    const Matrix3 turn = transposed(trial.rotation);
    result.state.equivalent_plastic_strain = p_old + dp;
    result.state.back_strain               = congruence(turn, symmetric_part(back));
    const Spectrum3       axes             = spectrum<dim>(symmetric_part(strain));
    std::array<double, 3> be{};
    for (int a = 0; a < 3; ++a)
      be[a] = std::exp(2 * axes.values[a]);
    result.state.inverse_plastic_metric =
        congruence(inverse(F, determinant(F)), symmetric_part(from_axes(be, axes.vectors)));

    // Flow curve by trapezium as in j2_update, minus its kinematic part and plus X : N,
    // both of them exactly, so that they cancel in a first pull.
    const double curve =
        (material.flow(p_old).stress + material.flow(p_old + dp).stress) / 2 * dp;
    const double taken =
        material.kinematic().saturation * (dp - std::exp(-rate * p_old) * r.gain);
    const double shift = material.kinematic().saturation * (dp - r.gain) +
                         2 * C / 3 * r.gain * inner(trial.back_strain, normal);
    result.plastic_work = curve - taken + shift;
  }

  // Along each h: eta changes by 2 G de' - c k dbeta + c k rate beta dp, the increment with
  // the excess, the normal with eta's direction.
  const double c  = 2 * C / 3;
  const double ck = c * r.decay;
  for (int k = 0; k < dim; ++k)
    for (int l = 0; l < dim; ++l)
    {
      const Matrix3 rate_of_strain = trial.strain_rate(k, l);
      const double  rate_of_volume = trace(rate_of_strain);
      Matrix3       rate_of_stress = sum(2 * G, deviator(rate_of_strain), 0, {});
      if (flows)
      {
        Matrix3 rate_of_eta     = sum(1, rate_of_stress, -ck, trial.back_strain_rate(k, l));
        const double rate_of_dp = inner(normal, rate_of_eta) / r.slope;
        rate_of_eta = sum(1, rate_of_eta, ck * rate * rate_of_dp, trial.back_strain);
        // N = 3/2 eta / size
        const double  along   = inner(normal, rate_of_eta) / r.size;
        const Matrix3 turning = sum(1.5 / r.size, rate_of_eta, -along, normal);
        const Matrix3 flow    = sum(rate_of_dp, normal, dp, turning);
        rate_of_stress        = sum(1, rate_of_stress, -2 * G, flow);
      }
      for (int i = 0; i < dim; ++i)
        for (int j = 0; j < dim; ++j)
          result.tangent[i * dim + j][k * dim + l] =
              rate_of_stress[i][j] + (i == j ? K * rate_of_volume : 0);
    }
  return result;
}

double back_energy(const PlasticState &state, const PointMaterial &material)
{
  const Matrix3 beta = full(state.back_strain);
  return material.kinematic().modulus() / 3 * inner(beta, beta);
}

template J2Result<2> mixed_update<2>(const Matrix3 &, const PlasticState &,
                                     const PointMaterial &);
template J2Result<3> mixed_update<3>(const Matrix3 &, const PlasticState &,
                                     const PointMaterial &);
} // namespace throughbend
