#pragma once
// Quantiles of a figure from passes that were sampled, each with an interval.

#include <vector>

namespace throughbend
{
struct QuantileBand
{
  double at    = 0.5; ///< share of all passes below it [-]
  double value = 0;   ///< in the figure's unit
  /// Two-sided interval of 95 %; an end that so few passes do not tell is NaN.
  double low = 0, high = 0;
};

/// The value is the order statistic interpolated at (n - 1) at + 1. The interval lies
/// between two order statistics whose ranks leave at most 2.5 % of the binomial
/// distribution on either side, whatever the figure's law (David & Nagaraja 2003, Order
/// Statistics, 7.1). It takes passes as independent, which is wide for evenly spread ones.
QuantileBand quantile_band(std::vector<double> figures, double at);
} // namespace throughbend
