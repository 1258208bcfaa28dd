#include "solver/study/fit/fit_judgement.h"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
namespace
{
constexpr std::size_t fewest_for_runs = 8;

/// Places in the list of readings that the passes reach.
std::vector<std::size_t> used(const ReadingFit &fit)
{
  std::vector<std::size_t> places;
  for (std::size_t i = 0; i < fit.residual.size(); ++i)
    if (std::isfinite(fit.residual[i]))
      places.push_back(i);
  return places;
}

double two_sided(const double z)
{
  return 2 * boost::math::cdf(boost::math::complement(boost::math::normal(), std::abs(z)));
}

/// Slope of the residuals over the travel, and its chance by noise alone.
void put_drift(Residuals &found, const ReadingFit &fit,
               const std::vector<Reading> &readings, const std::vector<std::size_t> &places)
{
  const double n = static_cast<double>(places.size());
  double       x = 0, y = 0, xx = 0, xy = 0, rest = 0;
  for (const std::size_t i : places)
  {
    x += readings[i].travel / n;
    y += fit.residual[i] / n;
  }
  for (const std::size_t i : places)
  {
    xx += std::pow(readings[i].travel - x, 2);
    xy += (readings[i].travel - x) * (fit.residual[i] - y);
  }
  if (!(xx > 0) || places.size() < 4)
    return;
  found.drift = xy / xx;
  for (const std::size_t i : places)
    rest += std::pow(fit.residual[i] - y - found.drift * (readings[i].travel - x), 2);
  const double error = std::sqrt(rest / (n - 2) / xx);
  if (error > 0)
    found.drifts = 2 * boost::math::cdf(boost::math::complement(
                           boost::math::students_t(n - 2), std::abs(found.drift / error)));
}
} // namespace

double runs_chance(const std::vector<double> &residuals)
{
  double      above = 0, below = 0, runs = 0;
  int         last = 0;
  std::size_t n    = 0;
  for (const double r : residuals)
  {
    if (!std::isfinite(r) || r == 0)
      continue;
    ++n;
    const int sign = r > 0 ? 1 : -1;
    (sign > 0 ? above : below) += 1;
    runs += sign != last ? 1 : 0;
    last = sign;
  }
  if (n < fewest_for_runs)
    return 1;
  if (above == 0 || below == 0)
    return std::pow(0.5, static_cast<double>(n) - 1);
  const double all  = above + below;
  const double mean = 2 * above * below / all + 1;
  const double variance =
      2 * above * below * (2 * above * below - all) / (all * all * (all - 1));
  return variance > 0 ? two_sided((runs - mean) / std::sqrt(variance)) : 1;
}

Residuals residuals_of(const ReadingFit &fit, const std::vector<Reading> &readings)
{
  Residuals                      found;
  const std::vector<std::size_t> places = used(fit);
  found.peak                            = fit.peak;
  if (places.empty())
    return found;
  const std::size_t n = places.size();
  found.runs          = runs_chance(fit.residual);
  put_drift(found, fit, readings, places);
  const std::size_t reach   = std::max<std::size_t>(1, n / 12); // on either side
  double            squares = 0, waves = 0;
  for (std::size_t k = 0; k < n; ++k)
  {
    squares += std::pow(fit.residual[places[k]], 2);
    double            mean = 0;
    const std::size_t from = k > reach ? k - reach : 0, to = std::min(n - 1, k + reach);
    for (std::size_t j = from; j <= to; ++j)
      mean += fit.residual[places[j]] / static_cast<double>(to - from + 1);
    waves += mean * mean;
    if (std::abs(fit.scaled[places[k]]) > std::abs(found.worst_scaled))
    {
      found.worst        = places[k];
      found.worst_scaled = fit.scaled[places[k]];
    }
  }
  found.rms  = std::sqrt(squares / static_cast<double>(n));
  found.wave = std::sqrt(waves / static_cast<double>(n));
  // The last tenth of the readings, three at least.
  const std::size_t tail = std::min(n, std::max<std::size_t>(3, n / 10));
  found.rising_end       = true;
  for (std::size_t k = n - tail; k < n; ++k)
  {
    const double now = fit.residual[places[k]];
    if (now < 0.1 * fit.peak ||
        (k > n - tail && readings[places[k]].force < 0.98 * readings[places[k - 1]].force))
      found.rising_end = false;
  }
  return found;
}

namespace
{
double half_width(const double variance, const double width)
{
  return variance >= 0 ? width * std::sqrt(variance)
                       : std::numeric_limits<double>::infinity();
}

/// What readings of the same quality elsewhere, or another measure, would make of it.
std::vector<FitAdvice> advice_for(const FitSearch &search, const FitQuestion &question)
{
  std::vector<FitAdvice> advice;
  const ReadingFit      &fit = search.fit;
  const PassSurface      wide(search.wide);
  const auto             try_out =
      [&](const std::string &says, const FitMatrix &more, std::array<bool, fit_keys> held)
  {
    const FitMatrix covariance = covariance_of(sum_of(fit.information, more), held);
    // What the model itself is off by grows and shrinks with the estimate's own error.
    const auto with_model = [&](const std::size_t k)
    {
      const double now = covariance[k][k], before = fit.covariance[k][k];
      const double model = search.covariance[k][k] - before;
      return std::isfinite(model) && before > 0 ? now + model * std::min(1., now / before)
                                                : now;
    };
    advice.push_back(
        {says, half_width(with_model(0), fit.width), half_width(with_model(1), fit.width)});
  };
  const double last = question.readings.push.back().travel - fit.estimate[2];
  double       end = 0, peak = 0, peak_at = 0;
  for (const FitPass &pass : search.wide)
    end = std::max(end, pass.travel.empty() ? 0. : pass.travel.back());
  const FitPoint at{fit.estimate[0], fit.estimate[1]};
  for (double travel = 1; travel < end; travel += 0.5)
    if (const double force = wide.force(travel, at); force > peak)
    {
      peak    = force;
      peak_at = travel;
    }
  const double to = std::min(end, std::max(1.6 * peak_at, last));
  if (to > last + 3)
  {
    FitMatrix more{};
    for (int i = 1; i <= 10; ++i)
    {
      const double travel = last + (to - last) * i / 10;
      const double force  = wide.force(travel, at);
      // As the readings that there are: noise, marks of gauge and ruler, and neighbours
      // that go together.
      const double h = std::max(0.2, question.readings.travel_mark / 2);
      const double slope =
          (wide.force(travel + h, at) - wide.force(travel - h, at)) / (2 * h);
      const double by_travel =
          std::isfinite(slope) ? slope * question.readings.travel_mark : 0.;
      const double sigma = std::sqrt(
          fit.inflation *
          (std::pow(fit.noise, 2) *
               (std::pow(usual_noise * force, 2) + std::pow(usual_floor * peak, 2)) +
           std::pow(question.readings.force_mark, 2) / 12 + std::pow(by_travel, 2) / 12));
      if (std::isfinite(force) && sigma > 0)
        more = sum_of(more, information_of_force(wide, fit.estimate, travel, sigma));
    }
    try_out(fmt::format("ten more readings from {:.0f} to {:.0f} mm of travel, past the "
                        "largest force",
                        last, to),
            more, question.held);
  }
  const auto measured = [&](const EndKind kind)
  {
    return std::any_of(question.readings.ends.begin(), question.readings.ends.end(),
                       [&](const EndReading &end_reading)
                       { return end_reading.kind == kind; });
  };
  if (!measured(EndKind::springback) && !measured(EndKind::leg_angle))
    try_out("springback of a leg to +-0.5 deg",
            information_of_end(wide, fit.estimate, EndKind::springback, 0.25),
            question.held);
  if (!measured(EndKind::nose_gap))
    try_out("gap under the nose at the end to +-0.1 mm",
            information_of_end(wide, fit.estimate, EndKind::nose_gap, 0.05), question.held);
  if (!question.held[2] || !question.held[3])
  {
    auto held = question.held;
    held[2] = held[3] = true;
    try_out("zeros of ruler and gauge read before the push and subtracted (then --hold "
            "zeros)",
            {}, held);
  }
  if (!question.held[1])
  {
    auto held = question.held;
    held[1]   = true;
    try_out("the plate's flow curve from a tension test (then --hold strength)", {}, held);
  }
  const auto benefit = [](const FitAdvice &a)
  { return a.friction / known_friction + a.factor / known_factor; };
  std::sort(advice.begin(), advice.end(),
            [&](const FitAdvice &a, const FitAdvice &b)
            { return benefit(a) < benefit(b); });
  return advice;
}

bool at_end(const double value, const double low, const double high)
{
  const double slack = 1e-3 * (high - low);
  return value < low + slack || value > high - slack;
}
} // namespace

FitJudgement judged(const FitSearch &search, const FitQuestion &question)
{
  FitJudgement      found;
  const ReadingFit &fit = search.fit;
  found.residuals       = residuals_of(fit, question.readings.push);
  for (std::size_t k = 0; k < fit_keys; ++k)
    found.half[k] = half_width(search.covariance[k][k], fit.width);
  const auto &c        = search.covariance;
  found.friction_known = question.held[0] || found.half[0] <= known_friction;
  found.factor_known = question.held[1] || found.half[1] <= known_factor * fit.estimate[1];
  if (!question.held[0] && !question.held[1] && c[0][0] > 0 && c[1][1] > 0)
  {
    found.correlation = c[0][1] / std::sqrt(c[0][0] * c[1][1]);
    found.slope       = c[0][1] / c[0][0];
    found.half_given =
        half_width(std::max(0., c[1][1] - c[0][1] * c[0][1] / c[0][0]), fit.width);
  }
  for (std::size_t i = 0; i < fit.end_scaled.size(); ++i)
    if (std::isfinite(fit.end_scaled[i]) && std::abs(fit.end_scaled[i]) > end_too_far)
      found.end_missed = question.readings.ends[i].kind;
  const Residuals &r = found.residuals;
  const bool       bad =
      found.end_missed || !fit.converged || fit.used < fewest_readings || fit.freedom < 1 ||
      !(r.peak > 0) || fit.used * 5 < question.readings.push.size() * 4 ||
      r.rms > rms_too_large * r.peak ||
      (r.runs < runs_too_rare && r.wave > wave_too_large * r.peak) || r.rising_end;
  const FitBounds &b     = search.bounds;
  const bool       bound = (!question.held[0] && fit.estimate[0] > 0.999 * b.high[0]) ||
                     (!question.held[1] && at_end(fit.estimate[1], b.low[1], b.high[1])) ||
                     (!question.held[2] && at_end(fit.estimate[2], b.low[2], b.high[2])) ||
                     (!question.held[3] && at_end(fit.estimate[3], b.low[3], b.high[3]));
  if (!search.wrong_units.empty())
    found.verdict = FitVerdict::wrong_unit;
  else if (bad)
    found.verdict = FitVerdict::unexplained;
  else if (!question.held[1] && fit.plastic < 0.3)
    found.verdict = FitVerdict::elastic;
  // An estimate that next to nothing holds may well run to a bound.
  else if (!found.friction_known || !found.factor_known)
    found.verdict = FitVerdict::not_apart;
  else if (bound)
    found.verdict = FitVerdict::at_bound;
  if (found.verdict == FitVerdict::not_apart || found.verdict == FitVerdict::elastic)
    found.advice = advice_for(search, question);
  return found;
}
} // namespace throughbend
