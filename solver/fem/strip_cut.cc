#include "solver/fem/strip_cut.h"

#include <algorithm>

namespace throughbend
{
namespace
{
/// Of each unknown those that it shares an entry with, without itself.
std::vector<std::vector<int>> neighbours_in(const SymmetricTriangle &pattern)
{
  std::vector<std::vector<int>> neighbours(static_cast<std::size_t>(pattern.size()));
  for (int j = 0; j < pattern.size(); ++j)
    for (int k = pattern.starts[j]; k < pattern.starts[j + 1]; ++k)
      if (const int i = pattern.rows[k]; i != j)
      {
        neighbours[i].push_back(j);
        neighbours[j].push_back(i);
      }
  return neighbours;
}

/// How many steps from unknown to neighbour each is away from the start; -1: no way there.
std::vector<int> distances(const std::vector<std::vector<int>> &neighbours, const int start)
{
  std::vector<int> distance(neighbours.size(), -1), next = {start};
  distance[start] = 0;
  for (std::size_t k = 0; k < next.size(); ++k)
    for (const int neighbour : neighbours[next[k]])
      if (distance[neighbour] < 0)
      {
        distance[neighbour] = distance[next[k]] + 1;
        next.push_back(neighbour);
      }
  return distance;
}
} // namespace

bool StripCut::pays() const
{
  constexpr double  widest = 0.05, smallest = 0.3; // of all unknowns
  const std::size_t n     = halves[0].size() + halves[1].size() + cut.size();
  const auto        share = [n](const std::vector<int> &some)
  { return static_cast<double>(some.size()) / static_cast<double>(n); };
  return !cut.empty() && share(cut) <= widest && share(halves[0]) >= smallest &&
         share(halves[1]) >= smallest;
}

StripCut cut_across(const SymmetricTriangle &pattern)
{
  const auto neighbours = neighbours_in(pattern);
  const auto joined     = std::find_if(neighbours.begin(), neighbours.end(),
                                       [](const auto &some) { return !some.empty(); });
  if (joined == neighbours.end())
    return {};
  // From anywhere to an end of the coupon and to the other: then the unknowns of a distance
  // lie across it, but for some beside the start (George & Liu 1981, Computer Solution of
  // Large Sparse Positive Definite Systems, chapter 4, from memory).
  std::vector<int> distance =
      distances(neighbours, static_cast<int>(joined - neighbours.begin()));
  for (int i = 0; i < 2; ++i)
  {
    const auto farthest = std::max_element(distance.begin(), distance.end());
    distance = distances(neighbours, static_cast<int>(farthest - distance.begin()));
  }

  // The distance at which half of the unknowns are reached.
  std::vector<int> sorted(distance);
  std::nth_element(sorted.begin(), sorted.begin() + pattern.size() / 2, sorted.end());
  const int middle = sorted[static_cast<std::size_t>(pattern.size() / 2)];
  StripCut  parts;
  for (int i = 0; i < pattern.size(); ++i)
  {
    const bool meets_beyond =
        distance[i] == middle &&
        std::any_of(neighbours[i].begin(), neighbours[i].end(),
                    [&](const int neighbour) { return distance[neighbour] > middle; });
    (meets_beyond ? parts.cut : parts.halves[distance[i] > middle]).push_back(i);
  }
  return parts;
}
} // namespace throughbend
