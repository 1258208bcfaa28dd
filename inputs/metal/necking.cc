#include "inputs/metal/necking.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace throughbend
{
namespace
{
/// Swift's law through the end with its slope: strength n (prestrain + p)^(n-1) = slope.
FlowCurve swift_through(const CurveEnd &end, const double prestrain)
{
  FlowCurve curve;
  curve.law       = HardeningLaw::swift;
  curve.prestrain = prestrain;
  curve.exponent  = end.slope * (prestrain + end.strain) / end.stress;
  curve.strength  = end.stress / std::pow(prestrain + end.strain, curve.exponent);
  curve.settle_yield();
  return curve;
}

/// Voce's law through the end with its slope: saturation rate exp(-rate p) = slope.
FlowCurve voce_through(const CurveEnd &end, const double rate)
{
  FlowCurve curve;
  curve.law        = HardeningLaw::voce;
  curve.rate       = rate;
  curve.saturation = end.slope / rate * std::exp(rate * end.strain);
  curve.yield      = end.stress + end.slope / rate - curve.saturation;
  return curve;
}

double square_sum(const FlowCurve &curve, const std::vector<FlowPoint> &points,
                  const double from)
{
  double sum = 0;
  for (const FlowPoint &point : points)
    if (point.plastic_strain >= from)
      sum += std::pow(curve.stress(point.plastic_strain) - point.stress, 2);
  return sum;
}

/// The number between low and high, looked for on a scale of ratios, at which the sum is
/// least.
double least_at(const double low, const double high,
                const std::function<double(double)> &sum)
{
  constexpr int steps = 200;
  const double  ratio = std::pow(high / low, 1. / steps);
  double        best = low, least = sum(low);
  for (int i = 1; i <= steps; ++i)
    if (const double at = low * std::pow(ratio, i); sum(at) < least)
    {
      best  = at;
      least = sum(at);
    }
  double left = std::max(low, best / ratio), right = std::min(high, best * ratio);
  for (int i = 0; i < 60; ++i)
  {
    const double a = left + (right - left) / 3, b = right - (right - left) / 3;
    (sum(a) > sum(b) ? left : right) = sum(a) > sum(b) ? a : b;
  }
  return (left + right) / 2;
}

void thin(const std::vector<FlowPoint> &points, const double share, const std::size_t from,
          const std::size_t to, std::vector<bool> &kept)
{
  std::size_t  worst = from;
  double       most  = share;
  const double width = points[to].plastic_strain - points[from].plastic_strain;
  for (std::size_t i = from + 1; i < to; ++i)
  {
    const double way = (points[i].plastic_strain - points[from].plastic_strain) / width;
    const double line =
        points[from].stress + way * (points[to].stress - points[from].stress);
    if (const double apart = std::abs(line - points[i].stress) / points[i].stress;
        apart > most)
    {
      most  = apart;
      worst = i;
    }
  }
  if (worst == from)
    return;
  kept[worst] = true;
  thin(points, share, from, worst, kept);
  thin(points, share, worst, to, kept);
}
} // namespace

double NeckingCurves::stress(const BeyondNecking which, const double p) const
{
  switch (which)
  {
  case BeyondNecking::swift:
    return swift.stress(p);
  case BeyondNecking::voce:
    return voce.stress(p);
  case BeyondNecking::mean:
    break;
  }
  return (swift.stress(p) + voce.stress(p)) / 2;
}

double NeckingCurves::spread(const double p) const
{
  const double a = swift.stress(p), b = voce.stress(p);
  return std::abs(a - b) / (a + b);
}

NeckingCurves necking_curves(const std::vector<FlowPoint> &points, const CurveEnd &end)
{
  const double from = end.strain / 5;
  // An exponent up to 1: beyond it the curve would bend upwards.
  const double most = std::max(2e-5, end.stress / end.slope - end.strain);
  const double prestrain =
      least_at(1e-5, std::min(1., most),
               [&](double at) { return square_sum(swift_through(end, at), points, from); });
  const double rate =
      least_at(0.05, 20 / end.strain,
               [&](double at) { return square_sum(voce_through(end, at), points, from); });
  return {swift_through(end, prestrain), voce_through(end, rate)};
}

std::vector<FlowPoint> continued(const std::vector<FlowPoint> &points,
                                 const NeckingCurves &curves, const CurveEnd &end,
                                 const BeyondNecking which)
{
  constexpr int          places = 400;
  std::vector<FlowPoint> beyond;
  for (int i = 0; i <= places; ++i)
  {
    const double p = end.strain + (std::max(1., 2 * end.strain) - end.strain) * i / places;
    beyond.push_back({p, curves.stress(which, p)});
  }
  std::vector<FlowPoint> all = points;
  for (const FlowPoint &point : thinned(beyond, 1e-3))
    if (point.plastic_strain > all.back().plastic_strain)
      all.push_back({point.plastic_strain, std::max(point.stress, all.back().stress)});
  return all;
}

std::vector<FlowPoint> thinned(const std::vector<FlowPoint> &points, const double share)
{
  if (points.size() < 3)
    return points;
  std::vector<bool> kept(points.size(), false);
  kept.front() = kept.back() = true;
  thin(points, share, 0, points.size() - 1, kept);
  std::vector<FlowPoint> few;
  for (std::size_t i = 0; i < points.size(); ++i)
    if (kept[i])
      few.push_back(points[i]);
  return few;
}
} // namespace throughbend
