#include "solver/study/statistics/key_weights.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numeric>

namespace throughbend
{
namespace
{
/// From 1; equal values share their mean rank.
std::vector<double> ranks_of(const std::vector<double> &values)
{
  std::vector<std::size_t> order(values.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return values[a] < values[b]; });
  std::vector<double> ranks(values.size());
  for (std::size_t i = 0; i < order.size();)
  {
    std::size_t end = i;
    while (end < order.size() && values[order[end]] == values[order[i]])
      ++end;
    for (std::size_t k = i; k < end; ++k)
      ranks[order[k]] = static_cast<double>(i + 1 + end) / 2;
    i = end;
  }
  return ranks;
}

double correlation(const std::vector<double> &a, const std::vector<double> &b)
{
  const auto   n  = static_cast<double>(a.size());
  const double ma = std::accumulate(a.begin(), a.end(), 0.) / n;
  const double mb = std::accumulate(b.begin(), b.end(), 0.) / n;
  double       ab = 0, aa = 0, bb = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
  {
    ab += (a[i] - ma) * (b[i] - mb);
    aa += (a[i] - ma) * (a[i] - ma);
    bb += (b[i] - mb) * (b[i] - mb);
  }
  return aa > 0 && bb > 0 ? ab / std::sqrt(aa * bb) : 0;
}

std::vector<double> rank_correlations(const CubePoints          &points,
                                      const std::vector<double> &figures)
{
  const std::vector<double> y = ranks_of(figures);
  std::vector<double>       all;
  for (std::size_t d = 0; d < points.front().size(); ++d)
  {
    std::vector<double> x;
    for (const std::vector<double> &point : points)
      x.push_back(point[d]);
    all.push_back(correlation(ranks_of(x), y));
  }
  return all;
}

using Statistic =
    std::function<std::vector<double>(const CubePoints &, const std::vector<double> &)>;

/// Standard deviation of each number by leaving one set out at a time (Efron & Stein 1981,
/// Annals of Statistics 9, 586): sqrt((g - 1) / g sum (s_i - mean)^2).
std::vector<double> jackknife(const CubePoints &points, const std::vector<double> &figures,
                              const std::vector<std::size_t> &set_of,
                              const Statistic                &statistic)
{
  const std::size_t sets = 1 + *std::max_element(set_of.begin(), set_of.end());
  std::vector<std::vector<double>> left;
  for (std::size_t set = 0; set < sets; ++set)
  {
    CubePoints          p;
    std::vector<double> f;
    for (std::size_t i = 0; i < points.size(); ++i)
      if (set_of[i] != set)
      {
        p.push_back(points[i]);
        f.push_back(figures[i]);
      }
    if (p.size() < points.size() && !p.empty())
      left.push_back(statistic(p, f));
  }
  if (left.size() < 2)
    return std::vector<double>(statistic(points, figures).size(), 1);
  std::vector<double> deviations;
  const auto          g = static_cast<double>(left.size());
  for (std::size_t k = 0; k < left.front().size(); ++k)
  {
    double mean = 0, sum = 0;
    for (const std::vector<double> &one : left)
      mean += one[k] / g;
    for (const std::vector<double> &one : left)
      sum += (one[k] - mean) * (one[k] - mean);
    deviations.push_back(std::sqrt((g - 1) / g * sum));
  }
  return deviations;
}

std::vector<double> shares(const PolynomialModel &model, const std::size_t keys)
{
  std::vector<double> all;
  for (std::size_t d = 0; d < keys; ++d)
  {
    all.push_back(model.first(d));
    all.push_back(model.total(d));
  }
  return all;
}
} // namespace

FigureWeights figure_weights(const CubePoints &points, const std::vector<double> &figures,
                             const std::vector<KeyBasis>    &bases,
                             const std::vector<std::size_t> &set_of)
{
  FigureWeights     found;
  const std::size_t keys = bases.size();
  if (points.size() < 10 || keys == 0)
    return found;
  const std::vector<double> ranks = rank_correlations(points, figures);
  const std::vector<double> rank_error =
      jackknife(points, figures, set_of, rank_correlations);
  for (std::size_t d = 0; d < keys; ++d)
    found.ranks.push_back({ranks[d], 2 * rank_error[d]});

  const unsigned degree = best_degree(points, figures, bases);
  if (degree == 0)
    return found;
  const PolynomialModel model(points, figures, bases, degree);
  found.left_out_share = model.left_out_share();
  found.terms          = model.terms();
  if (found.left_out_share < least_left_out_share)
    return found;
  const std::vector<double> whole = shares(model, keys);
  const std::vector<double> error =
      jackknife(points, figures, set_of,
                [&](const CubePoints &p, const std::vector<double> &f)
                { return shares(PolynomialModel(p, f, bases, degree), keys); });
  const double unexplained = 1 - found.left_out_share;
  for (std::size_t d = 0; d < keys; ++d)
    found.weights.push_back({whole[2 * d], whole[2 * d + 1], 2 * error[2 * d] + unexplained,
                             2 * error[2 * d + 1] + unexplained});
  return found;
}
} // namespace throughbend
