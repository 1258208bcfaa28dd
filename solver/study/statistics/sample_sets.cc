#include "solver/study/statistics/sample_sets.h"

#include <boost/random/sobol.hpp>

#include <algorithm>
#include <cmath>
#include <random>

namespace throughbend
{
namespace
{
/// The middle of the 2^53 cells a double can tell apart, so never 0 and never 1.
double inside_unit(const std::uint64_t bits)
{
  return (static_cast<double>(bits >> 11) + 0.5) * 0x1p-53;
}
} // namespace

CubePoints sample_points(const std::size_t points, const std::size_t dimensions,
                         const std::size_t sets, const std::uint64_t seed)
{
  std::mt19937_64 random(seed);
  CubePoints      all(points, std::vector<double>(dimensions));
  for (std::size_t set = 0; set < sets && dimensions > 0; ++set)
  {
    std::vector<std::uint64_t> shift(dimensions);
    for (std::uint64_t &s : shift)
      s = random();
    // Boost leaves out the sequence's first point, which is 0: with it the first 2^m points
    // have one in each of 2^m intervals of every key.
    boost::random::sobol sequence(dimensions);
    for (std::size_t i = set; i < points; i += sets)
      for (std::size_t d = 0; d < dimensions; ++d)
        all[i][d] = inside_unit((i == set ? 0 : sequence()) ^ shift[d]);
  }
  return all;
}

std::size_t usual_sets(const std::size_t points)
{
  return std::clamp<std::size_t>(points / 4, 1, 10);
}
} // namespace throughbend
