#include "inputs/metal/certificate_curve.h"

#include "inputs/text/input_error.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
// A uniform strain below this is none: the metal is as good as perfectly plastic.
constexpr double least_uniform    = 0.001;
constexpr double usual_elongation = 0.6; // more is no metal of a bend test
} // namespace

double CertificateCurve::least(const double p) const
{
  return std::min({estimate.stress(p), early.stress(p), late.stress(p)});
}

double CertificateCurve::largest(const double p) const
{
  return std::max({estimate.stress(p), early.stress(p), late.stress(p)});
}

FlowCurve swift_for(const double yield, const double ultimate, const double exponent)
{
  // Considere: the bar necks at prestrain + p = exponent with the engineering stress
  // strength exponent^exponent exp(-(exponent - prestrain)), or at once where the prestrain
  // is larger than that. It rises with the strength while the prestrain shrinks.
  const auto prestrain = [&](double strength)
  { return std::pow(yield / strength, 1 / exponent); };
  const auto tensile = [&](double strength)
  {
    const double shift = prestrain(strength);
    return shift >= exponent
               ? yield
               : strength * std::pow(exponent, exponent) * std::exp(shift - exponent);
  };
  double low  = yield;
  double high = 2 * ultimate * std::exp(exponent) / std::pow(exponent, exponent);
  for (int i = 0; i < 200; ++i)
  {
    const double middle                       = (low + high) / 2;
    (tensile(middle) < ultimate ? low : high) = middle;
  }
  FlowCurve curve;
  curve.law         = HardeningLaw::swift;
  curve.strength    = (low + high) / 2;
  curve.prestrain   = prestrain(curve.strength);
  curve.exponent    = exponent;
  curve.last_strain = exponent;
  curve.settle_yield();
  return curve;
}

CertificateCurve certificate_curve(const Certificate &given)
{
  const double A = given.elongation;
  if (!(given.yield >= 1 && given.yield <= 5000))
    throw InputError("--yield must lie between 1 MPa and 5000 MPa.");
  if (!(given.ultimate > given.yield))
    throw InputError(fmt::format(
        "--ultimate {:.4g} MPa is not above --yield {:.4g} MPa. Were the two exchanged, or "
        "the units mixed up?",
        given.ultimate, given.yield));
  if (given.ultimate > 5 * given.yield)
    throw InputError(
        fmt::format("--ultimate {:.4g} MPa is more than 5 times --yield {:.4g} MPa, "
                    "which no metal has. Check the units.",
                    given.ultimate, given.yield));
  if (A < 0 || A > 1)
    throw InputError("--elongation must lie between 0 % and 100 %, as in 22%.");

  CertificateCurve made;
  made.uniform       = 0.6 * (1 - given.yield / given.ultimate);
  made.uniform_early = 0.7 * made.uniform;
  made.uniform_late  = 1.3 * made.uniform;
  if (A > 0)
  {
    made.uniform_early = std::min(made.uniform_early, 0.4 * A);
    made.uniform_late  = std::max(made.uniform_late, 0.7 * A);
    if (made.uniform > A)
      made.notes.push_back(fmt::format(
          "the rule gives a uniform strain of {:.3g} %, and the bar broke at {:.3g} %: "
          "cut to that. The rule is not made for such a metal; use a tension test",
          100 * made.uniform, 100 * A));
    made.uniform       = std::min(made.uniform, A);
    made.uniform_early = std::min(made.uniform_early, A);
    made.uniform_late  = std::min(made.uniform_late, A);
  }
  else
    made.notes.push_back("no elongation is told: nothing checks the uniform strain");
  if (made.uniform_early < least_uniform)
    throw InputError(fmt::format(
        "yield {:.4g} MPa and ultimate {:.4g} MPa leave almost no hardening. Use law = "
        "perfect with yield = {:.4g} MPa, the largest force this metal can take.",
        given.yield, given.ultimate, given.ultimate));
  if (A > usual_elongation)
    made.notes.push_back(fmt::format("an elongation of {:.3g} % is unusual; is it one of "
                                     "area?",
                                     100 * A));
  const auto curve = [&](double uniform)
  { return swift_for(given.yield, given.ultimate, std::log1p(uniform)); };
  made.estimate = curve(made.uniform);
  made.early    = curve(made.uniform_early);
  made.late     = curve(made.uniform_late);
  return made;
}
} // namespace throughbend
