#include "solver/mechanics/j2_update.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
/// The zone's flow curve with what is mixed into it.
class LocalFlow
{
public:
  LocalFlow(const FlowCurve &zone, const Admixture &admixture)
      : zone_(zone), other_(admixture.flow), share_(admixture.share)
  {
  }
  double stress(double p) const
  {
    const double own = zone_.stress(p);
    return other_ == nullptr ? own : own + share_ * (other_->stress(p) - own);
  }
  double slope(double p) const
  {
    const double own = zone_.slope(p);
    return other_ == nullptr ? own : own + share_ * (other_->slope(p) - own);
  }

private:
  const FlowCurve       &zone_;
  const FlowCurve *const other_;
  const double           share_;
};

/// Plastic increment dg >= 0 with q - 3 G dg = s(p + dg), by Newton kept inside a bracket.
double plastic_increment(double q, double p, double shear, const LocalFlow &flow)
{
  double low = 0, high = (q - flow.stress(p)) / (3 * shear); // s never falls: root is below
  double dg = (q - flow.stress(p)) / (3 * shear + flow.slope(p));
  for (int i = 0; i < 60; ++i)
  {
    const double excess = q - 3 * shear * dg - flow.stress(p + dg);
    if (std::abs(excess) <= 1e-13 * q)
      break;
    (excess > 0 ? low : high) = dg;
    const double next         = dg + excess / (3 * shear + flow.slope(p + dg));
    dg                        = next > low && next < high ? next : (low + high) / 2;
  }
  return dg;
}
} // namespace

template <int dim>
J2Result<dim> j2_update(const Matrix3 &F, const PlasticState &old, const ZoneMaterial &zone,
                        const Admixture &admixture)
{
  const LocalFlow flow(zone.flow, admixture);
  const double    G = zone.shear, K = zone.bulk;
  const Spectrum3 trial = spectrum<dim>(congruence(F, old.inverse_plastic_metric));
  const Matrix3  &n     = trial.vectors;

  std::array<double, 3> strain{}, deviator{};
  for (int a = 0; a < 3; ++a)
    strain[a] = std::log(trial.values[a]) / 2;
  const double volume = strain[0] + strain[1] + strain[2];
  double       square = 0;
  for (int a = 0; a < 3; ++a)
  {
    deviator[a] = strain[a] - volume / 3;
    square += deviator[a] * deviator[a];
  }
  const double norm    = std::sqrt(square);
  const double q       = std::sqrt(6.) * G * norm; // sqrt(3/2) |2 G dev e|
  const double p_old   = old.equivalent_plastic_strain;
  const double s_old   = flow.stress(p_old);
  const bool   flowing = q > s_old;
  const double dg      = flowing ? plastic_increment(q, p_old, G, flow) : 0.;
  const double shrink  = flowing ? 1 - 3 * G * dg / q : 1.;

  J2Result<dim>         result;
  std::array<double, 3> tau{};
  for (int a = 0; a < 3; ++a)
    tau[a] = K * volume + 2 * G * shrink * deviator[a];
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j < 3; ++j)
      for (int a = 0; a < 3; ++a)
        result.kirchhoff[i][j] += tau[a] * n[i][a] * n[j][a];
  result.elastic_energy = K * volume * volume / 2 + G * shrink * shrink * square;

  result.state = old;
  if (flowing)
  {
    const double p_new                     = p_old + dg;
    result.state.equivalent_plastic_strain = p_new;
    result.plastic_work                    = (s_old + flow.stress(p_new)) / 2 * dg;
    // C_p^-1 = F^-1 b_e F^-T with b_e = exp(2 e_e) on the trial axes.
    Matrix3 be{};
    for (int a = 0; a < 3; ++a)
    {
      const double value = std::exp(2 * (volume / 3 + shrink * deviator[a]));
      for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j)
          be[i][j] += value * n[i][a] * n[j][a];
    }
    result.state.inverse_plastic_metric =
        congruence(inverse(F, determinant(F)), symmetric_part(be));
  }

  // Tangent on the principal axes: d tau_a / d e_b, and the off-axis moduli
  // (tau_a - tau_b)/(b_a - b_b), then turned back.
  const double slope = flowing ? flow.slope(p_old + dg) : 0.;
  const double along = flowing ? 6 * G * G * (dg / q - 1 / (3 * G + slope)) / square : 0.;
  std::array<std::array<double, dim>, dim> axial{}, shear{};
  for (int a = 0; a < dim; ++a)
    for (int b = 0; b < dim; ++b)
    {
      axial[a][b] =
          K + 2 * G * shrink * ((a == b) - 1. / 3) + along * deviator[a] * deviator[b];
      if (a != b)
        shear[a][b] =
            G * shrink * log_difference_quotient(trial.values[a], trial.values[b]);
    }
  // Columns: a[h] on the principal axes for each unit h, i.e. a[h]_ab as function of h_kl.
  for (int k = 0; k < dim; ++k)
    for (int l = 0; l < dim; ++l)
    {
      std::array<std::array<double, dim>, dim> response{};
      for (int a = 0; a < dim; ++a)
        for (int b = 0; b < dim; ++b)
        {
          if (a == b)
            for (int c = 0; c < dim; ++c)
              response[a][a] += axial[a][c] * n[k][c] * n[l][c];
          else
            response[a][b] = shear[a][b] * (n[k][a] * n[l][b] * trial.values[b] +
                                            n[k][b] * n[l][a] * trial.values[a]);
        }
      for (int i = 0; i < dim; ++i)
        for (int j = 0; j < dim; ++j)
        {
          double sum = 0;
          for (int a = 0; a < dim; ++a)
            for (int b = 0; b < dim; ++b)
              sum += n[i][a] * response[a][b] * n[j][b];
          result.tangent[i * dim + j][k * dim + l] = sum;
        }
    }
  return result;
}

template J2Result<2> j2_update<2>(const Matrix3 &, const PlasticState &,
                                  const ZoneMaterial &, const Admixture &);
template J2Result<3> j2_update<3>(const Matrix3 &, const PlasticState &,
                                  const ZoneMaterial &, const Admixture &);
} // namespace throughbend
