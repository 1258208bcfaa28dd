#include "postprocess/study/histogram.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double slack = 1e-9; // of a bin: values that are a border but for rounding
}

Bins bins_of(const std::vector<double> &values)
{
  double      low = INFINITY, high = -INFINITY;
  std::size_t n = 0;
  for (const double value : values)
    if (std::isfinite(value))
    {
      low  = std::min(low, value);
      high = std::max(high, value);
      ++n;
    }
  if (n == 0)
    return {};
  if (!(high > low))
  {
    const double width = low == 0 ? 1 : std::abs(low) / 10;
    return {low - width / 2, width, 1};
  }
  const double wanted = std::clamp(std::sqrt(static_cast<double>(n)), 5., 24.);
  const double rough  = (high - low) / wanted;
  const double power  = std::pow(10, std::floor(std::log10(rough)));
  const double width  = power * (rough / power < 1.5   ? 1
                                 : rough / power < 3.5 ? 2
                                 : rough / power < 7.5 ? 5
                                                       : 10);
  const double first  = std::floor(low / width + slack),
               last   = std::ceil(high / width - slack);
  return {first * width, width, static_cast<std::size_t>(std::max(1., last - first))};
}

std::vector<std::size_t> histogram(const std::vector<double> &values, const Bins &bins)
{
  std::vector<std::size_t> counts(bins.count, 0);
  for (const double value : values)
  {
    const double place = (value - bins.low) / bins.width + slack;
    if (!std::isfinite(place) || place < 0 ||
        place > static_cast<double>(bins.count) + 2 * slack)
      continue;
    ++counts[std::min(static_cast<std::size_t>(place), bins.count - 1)];
  }
  return counts;
}
} // namespace throughbend
