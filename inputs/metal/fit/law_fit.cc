#include "inputs/metal/fit/law_fit.h"

#include "inputs/units/units.h"

#include <ceres/ceres.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>

namespace throughbend
{
namespace
{
// Of the largest stress: what is closer is as good as exact.
constexpr double least_scatter = 1e-6;
// Of the criterion, within which laws are as good as each other.
constexpr double as_good = 2;

/// A law to fit: its numbers with their bounds, and places to begin from.
struct Candidate
{
  std::string                      name;
  HardeningLaw                     law = HardeningLaw::perfect;
  std::vector<double>              low, high;
  std::vector<std::vector<double>> starts;
};

/// Stress of a law with these numbers; T is a number or one with its derivatives.
template <class T>
T law_stress(const Candidate &candidate, const T *x, const double p)
{
  using std::exp;
  using std::pow;
  switch (candidate.law)
  {
  case HardeningLaw::linear:
    return x[0] + x[1] * p;
  case HardeningLaw::voce:
  {
    const T saturating = x[0] + x[1] * (T(1.) - exp(-x[2] * p));
    return candidate.low.size() == 4 ? saturating + x[3] * p : saturating;
  }
  case HardeningLaw::swift:
    return x[0] * pow(x[1] + p, x[2]);
  case HardeningLaw::ludwik:
    return p > 0 ? x[0] + x[1] * pow(T(p), x[2]) : x[0];
  default:
    return x[0];
  }
}

FlowCurve curve_of(const Candidate &candidate, const std::vector<double> &x)
{
  FlowCurve curve;
  curve.law = candidate.law;
  switch (candidate.law)
  {
  case HardeningLaw::linear:
    curve.yield     = x[0];
    curve.hardening = x[1];
    break;
  case HardeningLaw::voce:
    curve.yield      = x[0];
    curve.saturation = x[1];
    curve.rate       = x[2];
    curve.hardening  = x.size() == 4 ? x[3] : 0;
    break;
  case HardeningLaw::swift:
    curve.strength  = x[0];
    curve.prestrain = x[1];
    curve.exponent  = x[2];
    break;
  case HardeningLaw::ludwik:
    curve.yield    = x[0];
    curve.strength = x[1];
    curve.exponent = x[2];
    break;
  default:
    curve.yield = x[0];
  }
  curve.settle_yield();
  return curve;
}

/// Bounds are those of the keys (inputs/keys/options_material).
std::vector<Candidate> candidates(const std::vector<FlowPoint> &points)
{
  const double first = points.front().stress, last = points.back().stress;
  const double rise = std::max(last - first, 1.), range = points.back().plastic_strain;
  std::vector<Candidate> all = {
      {"perfect", HardeningLaw::perfect, {1}, {5000}, {{(first + last) / 2}}},
      {"linear", HardeningLaw::linear, {1, 0}, {5000, 1e5}, {{first, rise / range}}}};
  Candidate voce{"voce", HardeningLaw::voce, {1, 0, 1e-3}, {5000, 5000, 1e4}, {}};
  Candidate both{
      "voce, linear", HardeningLaw::voce, {1, 0, 1e-3, 0}, {5000, 5000, 1e4, 1e5}, {}};
  for (const double turn : {1., 3., 10., 40.})
  {
    voce.starts.push_back({first, rise, turn / range});
    both.starts.push_back({first, rise * 0.7, turn / range, 0.3 * rise / range});
  }
  Candidate swift{"swift", HardeningLaw::swift, {1, 1e-6, 1e-3}, {20000, 1, 1}, {}};
  Candidate ludwik{"ludwik", HardeningLaw::ludwik, {1, 1, 1e-3}, {5000, 20000, 1}, {}};
  for (const double n : {0.1, 0.25, 0.5})
  {
    swift.starts.push_back({last / std::pow(range, n), 0.01, n});
    ludwik.starts.push_back({first, rise / std::pow(range, n), n});
  }
  for (const Candidate &candidate : {voce, both, swift, ludwik})
    all.push_back(candidate);
  return all;
}

/// Residual of one point; numbers count in multiples of where they begin.
struct PointResidual
{
  const Candidate           &candidate;
  const std::vector<double> &scale;
  FlowPoint                  point;

  template <class T>
  bool operator()(T const *const *parameters, T *residual) const
  {
    std::vector<T> x;
    for (std::size_t i = 0; i < scale.size(); ++i)
      x.push_back(parameters[0][i] * scale[i]);
    residual[0] = T(point.stress) - law_stress(candidate, x.data(), point.plastic_strain);
    return true;
  }
};

struct Solved
{
  std::vector<double> x;
  double              sum       = std::numeric_limits<double>::infinity();
  bool                converged = false;
};

Solved solved_from(const Candidate &candidate, const std::vector<double> &start,
                   const std::vector<FlowPoint> &points)
{
  std::vector<double> x(start.size(), 1.), scale(start.size());
  for (std::size_t i = 0; i < start.size(); ++i)
    scale[i] = std::clamp(start[i], std::max(candidate.low[i], 1e-9), candidate.high[i]);
  ceres::Problem problem;
  for (const FlowPoint &point : points)
  {
    auto *cost = new ceres::DynamicAutoDiffCostFunction<PointResidual, 4>(
        new PointResidual{candidate, scale, point}); // both owned by the problem
    cost->AddParameterBlock(static_cast<int>(x.size()));
    cost->SetNumResiduals(1);
    problem.AddResidualBlock(cost, nullptr, x.data());
  }
  for (std::size_t i = 0; i < x.size(); ++i)
  {
    problem.SetParameterLowerBound(x.data(), static_cast<int>(i),
                                   candidate.low[i] / scale[i]);
    problem.SetParameterUpperBound(x.data(), static_cast<int>(i),
                                   candidate.high[i] / scale[i]);
  }
  ceres::Solver::Options options;
  options.linear_solver_type           = ceres::DENSE_QR;
  options.max_num_iterations           = 500;
  options.function_tolerance           = 1e-14;
  options.parameter_tolerance          = 1e-12;
  options.gradient_tolerance           = 1e-14;
  options.logging_type                 = ceres::SILENT;
  options.minimizer_progress_to_stdout = false;
  ceres::Solver::Summary summary;
  ceres::Solve(options, &problem, &summary);
  Solved found;
  for (std::size_t i = 0; i < x.size(); ++i)
    found.x.push_back(x[i] * scale[i]);
  found.sum       = 2 * summary.final_cost;
  found.converged = summary.termination_type == ceres::CONVERGENCE;
  return found;
}

/// Five digits: the figure that is printed is the figure that was judged.
double printed(const double value)
{
  return std::strtod(fmt::format("{:.5g}", value).c_str(), nullptr);
}

LawFit fitted(const Candidate &candidate, const std::vector<FlowPoint> &points,
              const double last_strain)
{
  Solved best;
  for (const std::vector<double> &start : candidate.starts)
    if (Solved found = solved_from(candidate, start, points); found.sum < best.sum)
      best = found;
  LawFit fit;
  fit.name    = candidate.name;
  fit.numbers = static_cast<int>(candidate.low.size());
  if (best.x.empty())
    return fit;
  for (std::size_t i = 0; i < best.x.size(); ++i)
    best.x[i] = std::clamp(printed(best.x[i]), candidate.low[i], candidate.high[i]);
  fit.converged         = best.converged;
  fit.curve             = curve_of(candidate, best.x);
  fit.curve.last_strain = printed(last_strain);
  double       sum      = 0;
  const double n        = static_cast<double>(points.size());
  for (const FlowPoint &point : points)
  {
    const double residual = point.stress - fit.curve.stress(point.plastic_strain);
    fit.residuals.push_back(residual);
    fit.largest = std::max(fit.largest, std::abs(residual));
    sum += residual * residual;
  }
  fit.scatter       = std::sqrt(sum / n);
  const double size = std::max(fit.scatter, least_scatter * points.back().stress);
  const double k    = fit.numbers + 1;
  fit.aicc = n - k - 1 > 0 ? 2 * n * std::log(size) + 2 * k + 2 * k * (k + 1) / (n - k - 1)
                           : std::numeric_limits<double>::infinity();
  fit.runs = runs_of(fit.residuals);
  return fit;
}
} // namespace

double runs_of(const std::vector<double> &residuals)
{
  double above = 0, below = 0, runs = 0, last = 0;
  for (const double residual : residuals)
  {
    if (residual == 0)
      continue;
    const double sign = residual > 0 ? 1 : -1;
    (sign > 0 ? above : below) += 1;
    runs += sign != last ? 1 : 0;
    last = sign;
  }
  const double n = above + below, pairs = 2 * above * below;
  if (n < 3 || pairs == 0)
    return 0;
  const double variance = pairs * (pairs - n) / (n * n * (n - 1));
  return variance > 0 ? (runs - 1 - pairs / n) / std::sqrt(variance) : 0;
}

LawFits fit_laws(const std::vector<FlowPoint> &points, const double last_strain)
{
  LawFits made;
  for (const Candidate &candidate : candidates(points))
    if (LawFit fit = fitted(candidate, points, last_strain);
        !fit.residuals.empty() && std::isfinite(fit.aicc))
      made.fits.push_back(std::move(fit));
  std::stable_sort(made.fits.begin(), made.fits.end(),
                   [](const LawFit &a, const LawFit &b) { return a.aicc < b.aicc; });
  for (std::size_t i = 0; i < made.fits.size(); ++i)
    if (made.fits[i].aicc <= made.fits.front().aicc + as_good &&
        made.fits[i].numbers < made.fits[made.taken].numbers)
      made.taken = i;
  return made;
}
} // namespace throughbend
