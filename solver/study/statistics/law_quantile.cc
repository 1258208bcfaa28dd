#include "solver/study/statistics/law_quantile.h"

#include <boost/math/distributions/lognormal.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/triangular.hpp>
#include <boost/math/distributions/uniform.hpp>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
template <class Distribution>
double cut_quantile(const Distribution &all, const ScatterLaw &law, const double u)
{
  const auto below = [&](const double x)
  {
    const auto support = boost::math::support(all);
    if (x <= support.first)
      return 0.;
    return x >= support.second ? 1. : boost::math::cdf(all, x);
  };
  const double from = below(law.low), to = below(law.high);
  // Ends of what a double can tell, so that the law without limits stays finite.
  const double share = std::clamp(from + u * (to - from), 1e-300, 1 - 1e-16);
  return std::clamp(boost::math::quantile(all, share), law.low, law.high);
}
} // namespace

double quantile(const ScatterLaw &law, const double u)
{
  namespace bm = boost::math;
  switch (law.kind)
  {
  case ScatterKind::uniform:
    return cut_quantile(bm::uniform(law.first, law.second), law, u);
  case ScatterKind::normal:
    return cut_quantile(bm::normal(law.first, law.second), law, u);
  case ScatterKind::triangular:
    return cut_quantile(bm::triangular(law.first, law.second, law.third), law, u);
  case ScatterKind::lognormal:
    return cut_quantile(bm::lognormal(std::log(law.first), std::log(law.second)), law, u);
  }
  return 0;
}
} // namespace throughbend
