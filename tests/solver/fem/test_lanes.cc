// Four numbers at once against the standard library, in more digits, and the update of four
// points against that of one. Metals are invented.

#include "solver/mechanics/j2_lanes.h"
#include "solver/mechanics/j2_update.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace throughbend;

namespace
{
constexpr double rounding = 0x1p-53; ///< of a number to its double [-]

ZoneMaterial metal(const HardeningLaw law, const double scale = 1)
{
  ZoneMaterial zone;
  zone.shear           = 80000 * scale;
  zone.bulk            = 170000 * scale;
  zone.flow.law        = law;
  zone.flow.yield      = 250;
  zone.flow.hardening  = 150;
  zone.flow.saturation = 200;
  zone.flow.rate       = 12;
  zone.flow.strength   = 700;
  zone.flow.prestrain  = 0.004;
  zone.flow.exponent   = 0.2;
  zone.flow.points     = {{0, 250}, {0.01, 300}, {0.1, 420}};
  zone.flow.settle_yield();
  zone.flow = zone.flow.scaled(scale);
  return zone;
}

template <int dim>
Matrix3 random_gradient(std::mt19937 &random, const double size)
{
  std::uniform_real_distribution<double> number(-size, size);
  Matrix3                                F = {{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
  for (std::size_t i = 0; i < dim; ++i)
    for (std::size_t j = 0; j < dim; ++j)
      F[i][j] += number(random);
  return F;
}

/// The same four points by j2_lanes().
template <int dim>
J2Lanes<dim> side_by_side(const Matrix3 (&F)[n_lanes], const PlasticState (&old)[n_lanes],
                          const PointMaterial *const (&points)[n_lanes])
{
  MaterialLanes     material;
  PlasticLanes<dim> accepted;
  Lanes             gradient[dim][dim], inverted[dim][dim];
  material.flow = flow_lanes(points);
  for (int l = 0; l < n_lanes; ++l)
  {
    material.shear[l]       = points[l]->shear();
    material.bulk[l]        = points[l]->bulk();
    const FlowState surface = points[l]->flow(old[l].equivalent_plastic_strain);
    accepted.strain[l]      = old[l].equivalent_plastic_strain;
    accepted.stress[l]      = surface.stress;
    accepted.slope[l]       = surface.slope;
    const Matrix3 F_inverse = inverse(F[l], determinant(F[l]));
    for (int i = 0; i < n_symmetric<dim>; ++i)
      accepted.inverse_metric[i][l] = old[l].inverse_plastic_metric[i];
    for (int i = 0; i < dim; ++i)
      for (int j = 0; j < dim; ++j)
      {
        gradient[i][j][l] = F[l][i][j];
        inverted[i][j][l] = F_inverse[i][j];
      }
  }
  J2Lanes<dim> result;
  j2_lanes<dim>(gradient, inverted, accepted, material, result);
  return result;
}

/// Largest difference over all that the two updates leave behind. Strains are differences
/// of numbers near 1 and known to some 1e-16 as such. So is the mean stress over the bulk
/// modulus; it is weighed a hundredfold. The return mapping ends within 1e-13 of the trial
/// stress, which is up to ten times the yield stress here: the deviator is taken over that,
/// plastic work over the yield stress, stored energy over that at yield.
template <int dim>
double difference(const J2Result<dim> &one, const J2Lanes<dim> &four, const int lane,
                  const PointMaterial &material)
{
  const double     yield  = material.flow(0).stress;
  const double     energy = yield * yield / (6 * material.shear());
  const Symmetric3 tau    = symmetric_part(one.kirchhoff);
  double           worst =
      std::max({std::abs(four.strain[lane] - one.state.equivalent_plastic_strain),
                std::abs(four.elastic[lane] - one.elastic_energy) /
                    std::max(energy, one.elastic_energy),
                std::abs(four.plastic[lane] - one.plastic_work) / yield});
  double apart[n_symmetric<dim>], mean = 0;
  for (int i = 0; i < n_symmetric<dim>; ++i)
  {
    apart[i] = four.kirchhoff[i][lane] - tau[i];
    mean += i < 3 ? apart[i] / 3 : 0;
    worst = std::max(worst, std::abs(four.inverse_metric[i][lane] -
                                     one.state.inverse_plastic_metric[i]));
  }
  worst = std::max(worst, 100 * std::abs(mean) / material.bulk());
  for (int i = 0; i < n_symmetric<dim>; ++i)
    worst = std::max(worst, std::abs(apart[i] - (i < 3 ? mean : 0)) / (10 * yield));
  return worst;
}
} // namespace

TEST_CASE("Functions of four numbers are as exact as those of one", "[fem][lanes]")
{
  std::mt19937                           random(11);
  std::uniform_real_distribution<double> wide(-690, 690), near(-1e-6, 1e-6), some(-0.5, 1);
  double                                 log_error = 0, exp_error = 0, quotient_error = 0;
  for (int i = 0; i < 20000; ++i)
  {
    const double x[n_lanes] = {wide(random), near(random), some(random), 1e-300};
    Lanes        exponent, number;
    for (int l = 0; l < n_lanes; ++l)
    {
      exponent[l] = x[l];
      number[l]   = l == 0 ? std::exp(x[l]) : 1 + x[l];
    }
    const Lanes e = exponential(exponent), ln = logarithm(number);
    const Lanes other = number * 1.3;
    const Lanes q     = log_difference_quotient(number, other, ln, logarithm(other));
    for (int l = 0; l < n_lanes; ++l)
    {
      const long double exact_e = std::exp(static_cast<long double>(x[l]));
      const long double exact_l = std::log(static_cast<long double>(number[l]));
      const auto        error   = [](const double is, const long double exact)
      { return exact == 0 ? std::abs(is) : double(std::abs((is - exact) / exact)); };
      exp_error           = std::max(exp_error, error(e[l], exact_e));
      log_error           = std::max(log_error, error(ln[l], exact_l));
      const long double a = number[l], b = other[l];
      quotient_error = std::max(quotient_error, error(q[l], std::log(a / b) / (a - b)));
    }
  }
  CHECK(exp_error < 3 * rounding);
  CHECK(log_error < 3 * rounding);
  CHECK(quotient_error < 8 * rounding);
  const Lanes one = all_lanes(1), close = all_lanes(1 + 1e-9);
  const Lanes equal = log_difference_quotient(one, one, logarithm(one), logarithm(one));
  const Lanes nearly =
      log_difference_quotient(close, one, logarithm(close), logarithm(one));
  CHECK(equal[0] == 1);
  CHECK(std::abs(nearly[0] - (1 - 0.5e-9)) < 2 * rounding); // ln(1 + x) / x
}

TEMPLATE_TEST_CASE_SIG(
    "Four points at once are updated as each by itself, under every law, "
    "where they flow and where they don't",
    "[fem][lanes]", ((int dim), dim), 2, 3)
{
  const auto law = GENERATE(HardeningLaw::perfect, HardeningLaw::linear, HardeningLaw::voce,
                            HardeningLaw::swift, HardeningLaw::ludwik, HardeningLaw::table);
  auto       extrapolation =
      GENERATE(Extrapolation::formula, Extrapolation::hold_slope, Extrapolation::flat);
  ZoneMaterial first = metal(law), second = metal(law, 1.3);
  for (ZoneMaterial *const zone : {&first, &second})
  {
    zone->flow.extrapolation = extrapolation;
    zone->flow.last_strain   = 0.05;
  }
  const PointMaterial        plain(first), strong(second), mixed(first, second, 0.4);
  const PointMaterial *const points[n_lanes] = {&plain, &strong, &mixed, &plain};

  std::mt19937 random(dim);
  PlasticState old[n_lanes];
  int          flowing = 0, elastic = 0;
  double       worst = 0;
  for (int step = 0; step < 12; ++step)
  {
    Matrix3 F[n_lanes];
    // The return ends within 1e-13 of the trial stress, here of up to ten times yield. The
    // last point stays elastic for most of the time.
    for (int l = 0; l < n_lanes; ++l)
      F[l] = random_gradient<dim>(random, l == 3 ? 0.0015 : 0.01);
    const J2Lanes<dim> four = side_by_side<dim>(F, old, points);
    for (int l = 0; l < n_lanes; ++l)
    {
      const J2Result<dim> one = j2_update<dim>(F[l], old[l], *points[l]);
      (one.plastic_work > 0 ? flowing : elastic) += 1;
      worst  = std::max(worst, difference<dim>(one, four, l, *points[l]));
      old[l] = one.state;
    }
  }
  INFO("largest difference " << worst);
  CHECK(worst < 1e-12);
  CHECK(flowing > 10);
  CHECK(elastic > 2);
}
