#include "solver/study/statistics/quantile_band.h"

#include <boost/math/distributions/binomial.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
QuantileBand quantile_band(std::vector<double> figures, const double at)
{
  constexpr double tail = 0.025;
  QuantileBand     band;
  band.at    = at;
  band.value = band.low = band.high = std::numeric_limits<double>::quiet_NaN();
  const std::size_t n               = figures.size();
  if (n == 0)
    return band;
  std::sort(figures.begin(), figures.end());
  const double      place = at * static_cast<double>(n - 1);
  const std::size_t below = static_cast<std::size_t>(place);
  const std::size_t above = std::min(below + 1, n - 1);
  band.value              = figures[below];
  // Figures may be infinite: then there is no number between two of them.
  if (const double share = place - static_cast<double>(below);
      share > 0 && figures[above] > figures[below])
    band.value += share * (figures[above] - figures[below]);

  // The quantile lies below the k-th smallest (k from 1) with the probability that fewer
  // than k of n are below it, P(B <= k - 1).
  const boost::math::binomial counts(static_cast<double>(n), at);
  std::size_t                 low = 0, high = 0; // ranks from 1; 0: none
  for (std::size_t k = 1; k <= n; ++k)
  {
    const double fewer = boost::math::cdf(counts, static_cast<double>(k - 1));
    if (fewer <= tail)
      low = k;
    if (high == 0 && 1 - fewer <= tail)
      high = k;
  }
  if (low > 0)
    band.low = figures[low - 1];
  if (high > 0)
    band.high = figures[high - 1];
  return band;
}
} // namespace throughbend
