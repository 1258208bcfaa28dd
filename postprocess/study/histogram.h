#pragma once
// How often values fall into bins of equal width.

#include <cstddef>
#include <vector>

namespace throughbend
{
struct Bins
{
  double      low = 0, width = 1;
  std::size_t count = 1;

  double border(std::size_t i) const { return low + width * static_cast<double>(i); }
  double high() const { return border(count); }
};

/// Bins that hold all values that are numbers: their width is 1, 2 or 5 times a power of
/// ten, their borders are multiples of it, and there are about as many as the square root
/// of the number of values.
Bins bins_of(const std::vector<double> &values);

/// How many values lie in each bin; a value on a border lies in the bin above it, on the
/// last border in the last bin. What is not a number or outside is not counted.
std::vector<std::size_t> histogram(const std::vector<double> &values, const Bins &bins);
} // namespace throughbend
