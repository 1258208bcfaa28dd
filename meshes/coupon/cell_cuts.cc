#include "meshes/coupon/cell_cuts.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace throughbend
{
std::vector<double> cut(double from, double to, const std::function<double(double)> &wish)
{
  // Cells needed = integral of dx / size; lines where that count passes whole multiples.
  // So many looks that none passes over a cell.
  constexpr int fewest = 400, most = 20000;
  double        least = std::numeric_limits<double>::infinity();
  for (const double middle : {0., from, to})
    if (middle >= from && middle <= to)
      least = std::min(least, wish(middle));
  const double cells_at_most = (to - from) / least;
  const int    samples =
      cells_at_most <= fewest
             ? fewest
             : static_cast<int>(std::min(std::ceil(4 * cells_at_most), 1. * most));
  std::vector<double> count(samples + 1, 0.), cuts;
  for (int i = 0; i < samples; ++i)
  {
    const double x = from + (to - from) * (i + 0.5) / samples;
    count[i + 1]   = count[i] + (to - from) / samples / wish(x);
  }
  const int cells = std::max(1, static_cast<int>(std::ceil(count.back() - 0.25)));
  int       i     = 0;
  for (int cell = 1; cell < cells; ++cell)
  {
    const double goal = count.back() * cell / cells;
    while (count[i + 1] < goal)
      ++i;
    const double share = (goal - count[i]) / (count[i + 1] - count[i]);
    cuts.push_back(from + (to - from) * (i + share) / samples);
  }
  cuts.push_back(to);
  return cuts;
}

std::vector<double> graded(double size, int cells, double last_over_first)
{
  const double        growth = cells > 1 ? std::pow(last_over_first, 1. / (cells - 1)) : 1.;
  std::vector<double> cuts   = {0};
  double              sum    = 0;
  for (int i = 0; i < cells; ++i)
    sum += std::pow(growth, i);
  for (int i = 0; i < cells; ++i)
    cuts.push_back(cuts.back() + size * std::pow(growth, i) / sum);
  cuts.back() = size;
  return cuts;
}
} // namespace throughbend
