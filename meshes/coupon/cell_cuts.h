#pragma once
// Cuts a length into cells: of wished sizes, or in equal ratios. Knows neither coupon nor
// weld.

#include <functional>
#include <vector>

namespace throughbend
{
/// Cuts [from, to] so that each cell comes close to the wished size; without `from` [mm].
std::vector<double> cut(double from, double to, const std::function<double(double)> &wish);

/// From 0 to `size`, the last of the cells `last_over_first` times as high as the first, in
/// equal ratios [mm].
std::vector<double> graded(double size, int cells, double last_over_first);
} // namespace throughbend
