#include "solver/study/fit/fit_search.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr std::size_t most_rounds = 3;
constexpr double      half_factor = 0.06, half_friction = 0.05;

/// Of the change from one mesh to the next finer one, what may still be missing then. The
/// refinement halves the cells: a first-order error would leave as much again, one of
/// second order a third of it.
constexpr double left_by_mesh = 0.5;

FitBounds usual_bounds(const FitQuestion &question)
{
  double peak = 0, from = question.readings.push.front().travel,
         to = question.readings.push.back().travel;
  for (const Reading &reading : question.readings.push)
    peak = std::max(peak, reading.force);
  FitBounds bounds;
  // Dead strokes before the first touch are many, a ruler is laid to some millimetres.
  const bool   strokes = question.readings.travel_from == TravelFrom::strokes;
  const double early = std::max(strokes ? 0.3 * to : 0., 5.), late = 3;
  bounds.low  = {least_friction, least_factor, -late, -0.1 * peak};
  bounds.high = {most_friction, most_factor, std::max(early, from), 0.1 * peak};
  bounds.held = question.held;
  return bounds;
}

std::vector<FitPoint> wide_design(const FitQuestion &question)
{
  std::vector<double> frictions = {0.02, 0.18, 0.40}, factors = {0.75, 1.3};
  if (question.held[0])
    frictions = {question.friction};
  if (question.held[1])
    factors = {1};
  else if (question.held[0])
    factors = {0.7, 1, 1.4};
  std::vector<FitPoint> points;
  for (const double friction : frictions)
    for (const double factor : factors)
      points.push_back({friction, factor});
  return points;
}

std::vector<FitPoint> narrow_design(const FitQuestion &question, FitPoint about,
                                    const double half)
{
  about.friction               = std::max(about.friction, question.held[0] ? 0. : half);
  const double          factor = half_factor * about.factor;
  std::vector<FitPoint> points = {about};
  if (!question.held[0])
  {
    points.push_back({about.friction - half, about.factor});
    points.push_back({about.friction + half, about.factor});
  }
  if (!question.held[1])
  {
    points.push_back({about.friction, about.factor - factor});
    points.push_back({about.friction, about.factor + factor});
  }
  if (!question.held[0] && !question.held[1])
    points.push_back({about.friction + half, about.factor + factor});
  return points;
}

std::vector<FitAsk> asks(const std::vector<FitPoint> &points, const FitLength length)
{
  std::vector<FitAsk> list;
  for (const FitPoint &point : points)
    list.push_back({point, FitMesh::own, length});
  return list;
}

double size_of(const ReadingFit &fit)
{
  double      sum = 0;
  std::size_t n   = 0;
  for (const double r : fit.residual)
    if (std::isfinite(r))
    {
      sum += r * r;
      ++n;
    }
  return n > 0 && fit.peak > 0 ? std::sqrt(sum / static_cast<double>(n)) / fit.peak : 1;
}

/// From several starts, the best: zeros of travel make more than one minimum.
ReadingFit best_fit(const ShopReadings &readings, const PassSurface &surface,
                    const FitBounds &bounds, const std::vector<FitValues> &starts,
                    const std::map<EndKind, double> &end_error = {})
{
  ReadingFit best;
  double     least = 0;
  for (const FitValues &start : starts)
  {
    ReadingFit   fit  = fit_readings(readings, surface, bounds, start, end_error);
    const double size = size_of(fit);
    if (best.residual.empty() || size < least)
    {
      best  = fit;
      least = size;
    }
  }
  return best;
}

std::vector<FitValues> wide_starts(const FitQuestion &question, const FitBounds &bounds)
{
  std::vector<FitValues> starts;
  for (const double friction : {0.08, 0.25})
    for (const double share : {0., 0.5})
      starts.push_back({question.held[0] ? question.friction : friction, 1,
                        question.held[2] ? 0. : share * bounds.high[2], 0});
  return starts;
}

/// Passes that end too early say nothing of later readings; without them where enough are
/// left.
std::vector<FitPass> long_enough(const std::vector<FitPass> &passes, const double travel)
{
  std::vector<FitPass> good;
  for (const FitPass &pass : passes)
    if (pass.lets_go || (!pass.travel.empty() && pass.travel.back() >= travel))
      good.push_back(pass);
  return good.size() >= 3 ? good : passes;
}

/// Those with which a usual plate would fit, the plate that is most as told first.
std::vector<std::string> units_that_explain(const FitQuestion            &question,
                                            const PassSurface            &surface,
                                            const std::vector<OtherUnit> &units,
                                            const double                  own_size)
{
  std::vector<std::pair<double, std::string>> found;
  for (const OtherUnit &unit : units)
  {
    FitQuestion other = question;
    for (Reading &reading : other.readings.push)
    {
      reading.force *= unit.force;
      reading.travel *= unit.travel;
    }
    other.readings.force_mark *= unit.force;
    other.readings.travel_mark *= unit.travel;
    other.readings.ends.clear();
    // A unit explains only with a usual plate: a factor of 1.8 is no explanation, and the
    // gauge's zero must not stand for one.
    FitBounds wide = usual_bounds(other);
    wide.held[3]   = true;
    wide.low[1]    = 0.7;
    wide.high[1]   = 1.4;
    const ReadingFit fit =
        best_fit(other.readings, surface, wide, wide_starts(other, wide));
    const double factor = fit.estimate[1];
    if (fit.used * 5 >= question.readings.push.size() * 4 && factor > 0.701 &&
        factor < 1.399 && size_of(fit) < std::min(0.5 * own_size, 0.06))
      found.emplace_back(std::abs(std::log(factor)), unit.says);
  }
  std::sort(found.begin(), found.end());
  std::vector<std::string> says;
  for (const auto &[distance, words] : found)
    says.push_back(words);
  return says;
}

/// What a force that is off by `size` [N], the same way over the question's coherence,
/// makes the estimate off by: a model's discrepancy as a random function of the travel (the
/// idea of Kennedy & O'Hagan 2001, J. R. Statist. Soc. B 63, 425; from memory).
FitMatrix by_discrepancy(const ReadingFit &fit, const FitQuestion &question,
                         const double size)
{
  const std::size_t      n = fit.slopes.size();
  std::vector<FitValues> response(n); // of the estimate to each force [1/N]
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t a = 0; a < fit_keys; ++a)
      for (std::size_t b = 0; b < fit_keys; ++b)
        if (!question.held[a] && !question.held[b])
          response[i][a] +=
              fit.covariance[a][b] / fit.inflation * fit.slopes[i][b] / fit.sigma[i];
  FitMatrix sum{};
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t k = 0; k < n; ++k)
    {
      const double apart =
          question.readings.push[i].travel - question.readings.push[k].travel;
      const double both = size * size * std::exp(-std::abs(apart) / question.coherence);
      for (std::size_t a = 0; a < fit_keys; ++a)
        for (std::size_t b = 0; b < fit_keys; ++b)
          sum[a][b] += response[i][a] * both * response[k][b];
    }
  return sum;
}
} // namespace

FitSearch fit_search(const FitQuestion &question, const std::vector<OtherUnit> &other_units,
                     const FitMaker &make)
{
  FitSearch found;
  found.bounds         = usual_bounds(question);
  const double    last = question.readings.push.back().travel;
  const FitLength needs =
      question.readings.ends.empty() ? FitLength::read : FitLength::whole;
  const auto wide = make(asks(wide_design(question), FitLength::whole));
  if (!wide)
  {
    found.interrupted = true;
    return found;
  }
  found.wide = *wide;
  const PassSurface coarse(long_enough(found.wide, last));
  found.fit         = best_fit(question.readings, coarse, found.bounds,
                               wide_starts(question, found.bounds));
  const double size = size_of(found.fit);
  const bool   odd  = size > 0.06 || found.fit.used < fewest_readings ||
                   found.fit.estimate[1] < 0.62 || found.fit.estimate[1] > 1.6;
  if (odd)
    found.wrong_units = units_that_explain(question, coarse, other_units, size);
  if (!found.wrong_units.empty() || found.fit.used < fewest_readings)
    return found;

  FitPoint about{found.fit.estimate[0], found.fit.estimate[1]};
  double   half = half_friction;
  for (found.rounds = 1; found.rounds <= most_rounds; ++found.rounds)
  {
    const auto narrow = make(asks(narrow_design(question, about, half), needs));
    if (!narrow)
    {
      found.interrupted = true;
      return found;
    }
    found.narrow = *narrow;
    const PassSurface surface(long_enough(found.narrow, last));
    found.fit = best_fit(question.readings, surface, found.bounds, {found.fit.estimate});
    const FitPoint now{found.fit.estimate[0], found.fit.estimate[1]};
    // The friction's design may have been moved up from 0.
    const double middle = found.narrow.front().point.friction;
    const bool   inside =
        std::abs(now.friction - middle) <= 1.3 * half &&
        std::abs(now.factor - about.factor) <= 1.3 * half_factor * about.factor;
    about = now;
    if (inside)
      break;
  }
  found.rounds = std::min(found.rounds, most_rounds);

  const auto last_two =
      make({{about, FitMesh::finer, needs}, {about, FitMesh::own, needs}});
  if (!last_two)
  {
    found.interrupted = true;
    return found;
  }
  found.finer = last_two->at(0);
  found.own   = last_two->at(1);
  PassSurface      surface(long_enough(found.narrow, last));
  const ReadingFit plain = found.fit;
  double           off = 0, change = 0;
  std::size_t      n = 0;
  for (const Reading &reading : question.readings.push)
  {
    const double travel = reading.travel - plain.estimate[2];
    const double a      = surface.force(travel, about) - force_at(*found.own, travel);
    const double b      = force_at(*found.finer, travel) - force_at(*found.own, travel);
    if (!std::isfinite(a + b))
      continue;
    off += a * a;
    change += b * b;
    ++n;
  }
  if (n > 0 && plain.peak > 0)
  {
    found.surface_error = std::sqrt(off / static_cast<double>(n)) / plain.peak;
    found.mesh_change   = std::sqrt(change / static_cast<double>(n)) / plain.peak;
  }
  std::map<EndKind, double> end_error;
  for (const auto &[kind, value] : found.finer->ends)
    if (found.own->ends.count(kind) > 0)
      end_error[kind] = left_by_mesh * std::abs(value - found.own->ends.at(kind));
  surface.correct_by(*found.finer);
  const ReadingFit corrected =
      best_fit(question.readings, surface, found.bounds, {plain.estimate}, end_error);
  if (corrected.used >= fewest_readings)
  {
    for (std::size_t k = 0; k < fit_keys; ++k)
      found.by_mesh[k] = corrected.estimate[k] - plain.estimate[k];
    if (question.finer_is_better)
      found.fit = corrected;
  }
  found.covariance = found.fit.covariance;
  for (std::size_t a = 0; a < fit_keys; ++a)
    for (std::size_t b = 0; b < fit_keys; ++b)
      if (!question.held[a] && !question.held[b])
        found.covariance[a][b] +=
            left_by_mesh * left_by_mesh * found.by_mesh[a] * found.by_mesh[b];
  const double model =
      found.fit.peak * std::hypot(left_by_mesh * found.mesh_change, found.surface_error);
  if (std::isfinite(found.covariance[0][0] + found.covariance[1][1]) &&
      found.fit.freedom > 0)
    found.covariance = sum_of(found.covariance, by_discrepancy(found.fit, question, model));
  return found;
}
} // namespace throughbend
