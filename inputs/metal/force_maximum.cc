#include "inputs/metal/force_maximum.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace throughbend
{
namespace
{
// Of the largest force: how near to it the points are that tell its place, and by how much
// it must fall again.
constexpr double      least_window = 0.001, most_window = 0.01, least_fall = 0.001;
constexpr std::size_t least_points = 7;
// Of the largest force: scatter that means need not be freed of.
constexpr double smooth_enough = 2e-4;

/// Scatter of the stress from the differences of its differences, which hardening hardly
/// changes from row to row.
double scatter_of(const std::vector<Pull> &pulls)
{
  std::vector<double> bends;
  for (std::size_t i = 1; i + 1 < pulls.size(); ++i)
  {
    // Off the line between its neighbours, wherever it lies between them.
    const double way = (pulls[i].strain - pulls[i - 1].strain) /
                       (pulls[i + 1].strain - pulls[i - 1].strain);
    const double line =
        pulls[i - 1].stress + way * (pulls[i + 1].stress - pulls[i - 1].stress);
    bends.push_back(std::abs(pulls[i].stress - line));
  }
  if (bends.empty())
    return 0;
  std::nth_element(bends.begin(), bends.begin() + static_cast<long>(bends.size() / 2),
                   bends.end());
  return bends[bends.size() / 2] / 0.6745 / std::sqrt(1.5);
}

/// Means over so many rows on either side, fewer at the ends.
std::vector<double> smoothed(const std::vector<Pull> &pulls, const std::size_t side)
{
  std::vector<double> sums = {0};
  for (const Pull &pull : pulls)
    sums.push_back(sums.back() + pull.stress);
  std::vector<double> means;
  for (std::size_t i = 0; i < pulls.size(); ++i)
  {
    const std::size_t reach = std::min({side, i, pulls.size() - 1 - i});
    means.push_back((sums[i + reach + 1] - sums[i - reach]) /
                    static_cast<double>(2 * reach + 1));
  }
  return means;
}

struct Parabola
{
  double a = 0, b = 0, c = 0; ///< of (strain - middle) / half
  double middle = 0, half = 1;
};

/// By least squares; stress counts from `level`.
Parabola parabola_through(const std::vector<Pull> &pulls, const std::size_t from,
                          const std::size_t to, const double level)
{
  Parabola made;
  made.middle = (pulls[from].strain + pulls[to].strain) / 2;
  made.half   = (pulls[to].strain - pulls[from].strain) / 2;
  std::array<double, 5> m{};
  std::array<double, 3> r{};
  for (std::size_t i = from; i <= to; ++i)
  {
    const double x     = (pulls[i].strain - made.middle) / made.half;
    double       power = 1;
    for (std::size_t k = 0; k < 5; ++k, power *= x)
    {
      m[k] += power;
      if (k < 3)
        r[k] += power * (pulls[i].stress - level);
    }
  }
  const auto det = [](double p, double q, double s, double t, double u, double v, double w,
                      double x, double y)
  { return p * (u * y - v * x) - q * (t * y - v * w) + s * (t * x - u * w); };
  const double whole = det(m[0], m[1], m[2], m[1], m[2], m[3], m[2], m[3], m[4]);
  made.a             = det(r[0], m[1], m[2], r[1], m[2], m[3], r[2], m[3], m[4]) / whole;
  made.b             = det(m[0], r[0], m[2], m[1], r[1], m[3], m[2], r[2], m[4]) / whole;
  made.c             = det(m[0], m[1], r[0], m[1], m[2], r[1], m[2], m[3], r[2]) / whole;
  return made;
}
} // namespace

ForceMaximum force_maximum(const std::vector<Pull> &pulls)
{
  // The largest of rows that scatter is one that lies too high, and so are those near to
  // it: the place is looked for on means, and the parabola goes through all rows there.
  const std::size_t end     = pulls.size() - 1;
  const double      scatter = scatter_of(pulls);
  double            raw     = 0;
  for (const Pull &pull : pulls)
    raw = std::max(raw, pull.stress);
  std::size_t side = 0;
  while (scatter > smooth_enough * raw * std::sqrt(2. * static_cast<double>(side) + 1) &&
         (side + 1) * 40 < pulls.size())
    ++side;
  const std::vector<double> means = smoothed(pulls, side);
  // Among rows that all have such means: at the ends of the record fewer rows make one.
  std::size_t peak = std::min(side, end);
  for (std::size_t i = peak; i + side <= end; ++i)
    if (means[i] > means[peak])
      peak = i;
  const double       largest = means[peak];
  const ForceMaximum not_reached{pulls[end].strain, largest, end, false};
  if (!(largest > 0))
    return not_reached;
  ForceMaximum found{pulls[peak].strain, largest, peak, false};
  const double left_over =
      scatter / std::sqrt(2. * static_cast<double>(side) + 1) / largest;
  // Falls again by more than scatter makes of it, however near to the top the rows lie that
  // tell its place.
  const double fall = std::clamp(5 * left_over, least_fall, most_window);
  for (std::size_t i = peak; i <= end; ++i)
    found.passed =
        found.passed || means[i] < (1 - (i + side <= end ? fall : most_window)) * largest;

  std::size_t from = peak, to = peak;
  double      window = std::max(least_window, 5 * left_over);
  for (;; window *= 2)
  {
    window = std::min(window, most_window);
    while (from > 0 && means[from - 1] >= (1 - window) * largest)
      --from;
    while (to < end && means[to + 1] >= (1 - window) * largest)
      ++to;
    if (to - from + 1 >= least_points || window >= most_window)
      break;
  }
  if (to - from >= 2)
  {
    const Parabola top       = parabola_through(pulls, from, to, largest);
    const double   x         = -top.b / (2 * top.c);
    const double   end_below = -top.c * (1 - x) * (1 - x); // at the right end
    const bool     inside    = top.c < 0 && std::abs(x) < 1;
    if (inside && (found.passed || end_below > least_fall * largest))
    {
      found.passed = true;
      found.strain = top.middle + top.half * x;
      found.stress += top.a + top.b * x + top.c * x * x;
    }
  }
  if (!found.passed)
    return not_reached;
  found.last = from;
  while (found.last < end && pulls[found.last + 1].strain <= found.strain)
    ++found.last;
  return found;
}
} // namespace throughbend
