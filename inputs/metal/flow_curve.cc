#include "inputs/metal/flow_curve.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
// Ludwik's slope is infinite at p = 0. Up to this strain the curve is the straight line
// from the yield stress to the curve, so that s(0) = yield and the slope is that of the
// stress.
constexpr double ludwik_start = 1e-9;

/// First table point of the straight piece that a strain lies on; the last piece goes on
/// beyond the table. At a point of the table the piece to the right counts.
std::size_t piece_right_of(const std::vector<FlowPoint> &points, double p)
{
  const auto after = std::upper_bound(points.begin() + 1, points.end() - 1, p,
                                      [](double strain, const FlowPoint &point)
                                      { return strain < point.plastic_strain; });
  return static_cast<std::size_t>(after - points.begin()) - 1;
}

/// As piece_right_of, but at a point of the table the piece to the left counts.
std::size_t piece_left_of(const std::vector<FlowPoint> &points, double p)
{
  const auto at = std::lower_bound(points.begin() + 1, points.end() - 1, p,
                                   [](const FlowPoint &point, double strain)
                                   { return point.plastic_strain < strain; });
  return static_cast<std::size_t>(at - points.begin()) - 1;
}

FlowState on_piece(const std::vector<FlowPoint> &points, std::size_t piece, double p)
{
  const FlowPoint &from = points[piece];
  const FlowPoint &to   = points[piece + 1];
  const double     slope =
      std::max(0., (to.stress - from.stress) / (to.plastic_strain - from.plastic_strain));
  return {from.stress + slope * (p - from.plastic_strain), slope};
}

/// Area under the table's pieces from 0 to p.
double area_under(const std::vector<FlowPoint> &points, double p)
{
  const std::size_t last = piece_right_of(points, p);
  double            area = 0;
  for (std::size_t i = 0; i <= last; ++i)
  {
    const double from = points[i].plastic_strain;
    const double to   = i == last ? p : points[i + 1].plastic_strain;
    area += (to - from) * on_piece(points, i, (from + to) / 2).stress;
  }
  return area;
}

/// The law itself, without the rule beyond the last backed strain. p >= 0.
FlowState by_law(const FlowCurve &curve, double p)
{
  switch (curve.law)
  {
  case HardeningLaw::perfect:
    return {curve.yield, 0};
  case HardeningLaw::linear:
    return {curve.yield + curve.hardening * p, std::max(0., curve.hardening)};
  case HardeningLaw::voce:
  {
    const double decay = std::exp(-curve.rate * p);
    return {curve.yield + curve.saturation * (1 - decay) + curve.hardening * p,
            std::max(0., curve.saturation * curve.rate * decay + curve.hardening)};
  }
  case HardeningLaw::swift:
  {
    const double strain = curve.prestrain + p;
    const double stress = curve.strength * std::pow(strain, curve.exponent);
    return {stress, std::max(0., curve.exponent * stress / strain)};
  }
  case HardeningLaw::ludwik:
  {
    if (p < ludwik_start)
    {
      const double slope = curve.strength * std::pow(ludwik_start, curve.exponent - 1);
      return {curve.yield + slope * p, std::max(0., slope)};
    }
    const double gain = curve.strength * std::pow(p, curve.exponent);
    return {curve.yield + gain, std::max(0., curve.exponent * gain / p)};
  }
  case HardeningLaw::table:
    if (curve.points.size() < 2)
      return {curve.points.empty() ? 0. : curve.points.front().stress, 0};
    return on_piece(curve.points, piece_right_of(curve.points, p), p);
  case HardeningLaw::formula:
    return curve.formula.curve ? curve.formula.curve->at(p) : FlowState{};
  }
  return {};
}

double work_by_law(const FlowCurve &curve, double p)
{
  switch (curve.law)
  {
  case HardeningLaw::perfect:
    return curve.yield * p;
  case HardeningLaw::linear:
    return curve.yield * p + curve.hardening * p * p / 2;
  case HardeningLaw::voce:
  {
    const double saturated =
        curve.rate > 0 ? p + std::expm1(-curve.rate * p) / curve.rate : 0.;
    return curve.yield * p + curve.saturation * saturated + curve.hardening * p * p / 2;
  }
  case HardeningLaw::swift:
  {
    const double n = curve.exponent + 1;
    return curve.strength / n *
           (std::pow(curve.prestrain + p, n) - std::pow(curve.prestrain, n));
  }
  case HardeningLaw::ludwik:
  {
    const double n     = curve.exponent + 1;
    const double start = std::min(p, ludwik_start);
    const double line  = std::pow(ludwik_start, curve.exponent - 1) * start * start / 2;
    const double power =
        (std::pow(std::max(p, ludwik_start), n) - std::pow(ludwik_start, n)) / n;
    return curve.yield * p + curve.strength * (line + power);
  }
  case HardeningLaw::table:
    if (curve.points.size() < 2)
      return by_law(curve, p).stress * p;
    return area_under(curve.points, p);
  case HardeningLaw::formula:
    return curve.formula.curve ? curve.formula.curve->work(p) : 0.;
  }
  return 0;
}

/// Where the straight line beyond the last backed strain starts and how it rises.
FlowState line_beyond(const FlowCurve &curve)
{
  const bool is_table = curve.law == HardeningLaw::table && curve.points.size() > 1;
  FlowState  start =
      is_table ? on_piece(curve.points, piece_left_of(curve.points, curve.last_strain),
                           curve.last_strain)
                : by_law(curve, curve.last_strain);
  if (curve.extrapolation == Extrapolation::flat)
    start.slope = 0;
  return start;
}
} // namespace

FlowState FlowCurve::at(double p) const
{
  const double strain = std::max(0., p);
  if (extrapolation == Extrapolation::formula || strain <= last_strain)
    return by_law(*this, strain);
  const FlowState start = line_beyond(*this);
  return {start.stress + start.slope * (strain - last_strain), start.slope};
}

double FlowCurve::initial_stress() const
{
  return at(0).stress;
}

double FlowCurve::stress(double p) const
{
  return at(p).stress;
}

double FlowCurve::slope(double p) const
{
  return at(p).slope;
}

double FlowCurve::work(double p) const
{
  const double strain = std::max(0., p);
  if (extrapolation == Extrapolation::formula || strain <= last_strain)
    return work_by_law(*this, strain);
  const FlowState start  = line_beyond(*this);
  const double    beyond = strain - last_strain;
  return work_by_law(*this, last_strain) +
         beyond * (start.stress + start.slope * beyond / 2);
}

FlowCurve FlowCurve::scaled(double factor) const
{
  FlowCurve curve = *this;
  curve.yield *= factor;
  curve.hardening *= factor;
  curve.saturation *= factor;
  curve.strength *= factor;
  for (FlowPoint &point : curve.points)
    point.stress *= factor;
  curve.formula = formula.scaled(factor);
  return curve;
}

void FlowCurve::settle_yield()
{
  if (law == HardeningLaw::swift || law == HardeningLaw::table ||
      law == HardeningLaw::formula)
    yield = initial_stress();
}

std::string to_text(HardeningLaw law)
{
  switch (law)
  {
  case HardeningLaw::perfect:
    return "perfect";
  case HardeningLaw::linear:
    return "linear";
  case HardeningLaw::voce:
    return "voce";
  case HardeningLaw::swift:
    return "swift";
  case HardeningLaw::ludwik:
    return "ludwik";
  case HardeningLaw::table:
    return "table";
  case HardeningLaw::formula:
    return "formula";
  }
  return "";
}
} // namespace throughbend
