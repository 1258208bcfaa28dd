#pragma once
// What may be made of a fit: whether its residuals look like noise, whether friction and
// strength are told apart, and what further reading would help. Numbers and verdicts; their
// sentences are in fit_words.

#include "solver/study/fit/fit_search.h"

#include <optional>
#include <string>
#include <vector>

namespace throughbend
{
/// Wald & Wolfowitz (1940), Ann. Math. Statist. 11, 147: runs of signs, by their normal
/// approximation, two-sided. 1 where there are too few.
double runs_chance(const std::vector<double> &residuals);

struct Residuals
{
  double      rms          = 0; ///< [N]
  double      wave         = 0; ///< rms of the moving mean over a sixth of the readings [N]
  double      peak         = 0; ///< largest force of the model where it was read [N]
  double      runs         = 1; ///< chance of so few or many runs if there were no pattern
  double      drift        = 0; ///< of the residuals over the travel [N/mm]
  double      drifts       = 1; ///< chance of such a drift by noise alone
  std::size_t worst        = 0; ///< which reading has the largest scaled residual
  double      worst_scaled = 0;
  /// The last readings stand above the model, more and more: nothing eases as it should.
  bool rising_end = false;
};
Residuals residuals_of(const ReadingFit &fit, const std::vector<Reading> &readings);

enum class FitVerdict
{
  good,        ///< each of what was looked for is known
  not_apart,   ///< the residuals are noise, but not all is known
  elastic,     ///< no reading is beyond the elastic range
  unexplained, ///< the residual pattern is none of noise
  at_bound,    ///< the estimate stands at the end of what was looked at
  wrong_unit   ///< a slip of unit explains the readings, and a usual plate without it does
               ///< not
};

/// Further readings and what they would make of the half widths of the intervals.
struct FitAdvice
{
  std::string says;
  double      friction = 0, factor = 0; ///< half widths of 95 % then
};

struct FitJudgement
{
  FitVerdict verdict = FitVerdict::good;
  Residuals  residuals;
  FitValues  half{};                ///< half widths of the 95 % intervals
  bool       friction_known = true; ///< or held
  bool       factor_known   = true;
  double     correlation    = 0; ///< of friction and factor
  /// Where both are looked for: what the factor is, given the friction: factor_at(friction)
  /// = at + slope (friction - estimate), to half_given.
  double                 slope = 0, half_given = 0;
  std::vector<FitAdvice> advice;
  /// A measure of the bent coupon that stands further from the model's than its error and
  /// the model's own explain.
  std::optional<EndKind> end_missed;
};

/// Known is what the readings tell more closely than one knows without any: friction +-0.05
/// (grease: 0.05 to 0.15), strength +-10 % (both: tests/verify/README.md, What is not
/// known).
constexpr double known_friction = 0.05, known_factor = 0.10;
/// A pattern that is none of noise, and larger than what the model claims of itself.
/// Of a measure of the bent coupon, its standard errors off the model's.
constexpr double end_too_far   = 5;
constexpr double runs_too_rare = 0.01, wave_too_large = 0.02, rms_too_large = 0.08;

FitJudgement judged(const FitSearch &search, const FitQuestion &question);
} // namespace throughbend
