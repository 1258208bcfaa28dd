#include "solver/study/statistics/chance.h"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
struct Ends
{
  double low = 0, high = 1;
};

/// k of n, each tail of (1 - level) / 2.
Ends clopper_pearson(const std::size_t k, const std::size_t n, const double level)
{
  namespace bm       = boost::math;
  const double tail  = (1 - level) / 2;
  const auto   count = static_cast<double>(k), all = static_cast<double>(n);
  Ends         ends;
  if (k > 0)
    ends.low = bm::quantile(bm::beta_distribution<>(count, all - count + 1), tail);
  if (k < n)
    ends.high =
        bm::quantile(bm::complement(bm::beta_distribution<>(count + 1, all - count), tail));
  return ends;
}

/// Mean of the sets' shares, with what counts as the event.
Ends between_sets(const std::vector<Happened> &passes, const std::size_t sets,
                  const Happened also, const double level)
{
  std::vector<double> shares(sets), sizes(sets);
  for (std::size_t i = 0; i < passes.size(); ++i)
  {
    sizes[i % sets] += 1;
    if (passes[i] == Happened::yes || passes[i] == also)
      shares[i % sets] += 1;
  }
  double mean = 0, sum = 0;
  for (std::size_t s = 0; s < sets; ++s)
    mean += (shares[s] /= sizes[s]) / static_cast<double>(sets);
  for (const double share : shares)
    sum += (share - mean) * (share - mean);
  const auto   n    = static_cast<double>(sets);
  const double half = boost::math::quantile(boost::math::complement(
                          boost::math::students_t(n - 1), (1 - level) / 2)) *
                      std::sqrt(sum / (n - 1) / n);
  return {mean - half, mean + half};
}
} // namespace

Chance chance(const std::vector<Happened> &passes, const std::size_t sets,
              const double level)
{
  Chance found;
  found.level = level;
  for (const Happened pass : passes)
    if (pass == Happened::yes)
      ++found.events;
    else if (pass == Happened::not_known)
      ++found.not_known;
  found.known = passes.size() - found.not_known;
  if (passes.empty())
    return found;
  // Whether a pass is known need not be independent of what happened in it: METAL clears
  // only what keeps a margin. So those that are not known are not left out of the count.
  const auto all = static_cast<double>(passes.size());
  found.share    = static_cast<double>(found.events) / all;
  found.most     = static_cast<double>(found.events + found.not_known) / all;
  found.low      = clopper_pearson(found.events, passes.size(), level).low;
  found.high = clopper_pearson(found.events + found.not_known, passes.size(), level).high;
  if (sets > 1 && passes.size() >= sets)
  {
    found.low = std::min(found.low, between_sets(passes, sets, Happened::yes, level).low);
    found.high =
        std::max(found.high, between_sets(passes, sets, Happened::not_known, level).high);
  }
  found.low  = std::clamp(found.low, 0., 1.);
  found.high = std::clamp(found.high, 0., 1.);
  return found;
}
} // namespace throughbend
