#pragma once
// What a series of meshes needs besides its runs: the mesh-converged value, and rows
// of a Markdown table. Knows no pass.

#include <array>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

namespace throughbend
{
struct SeriesLimit
{
  double value = 0;
  double order = 0; ///< of convergence [-]
  bool   seen  = false;
};

/// From the three finest of f = limit + C h^order (Celik et al. 2008, J. Fluids Eng. 130,
/// 078001, for sizes in any ratio). Where they show no order between 0.5 and 6, 1 is taken:
/// the farthest limit that a converging series may have.
inline SeriesLimit series_limit(const std::array<double, 3> &h,
                                const std::array<double, 3> &f)
{
  const auto ratio = [&](double p)
  {
    return (std::pow(h[0], p) - std::pow(h[1], p)) /
           (std::pow(h[1], p) - std::pow(h[2], p));
  };
  SeriesLimit  limit;
  const double wanted = (f[0] - f[1]) / (f[1] - f[2]);
  double       low = 0.5, high = 6;
  limit.seen  = wanted > ratio(low) && wanted < ratio(high);
  limit.order = 1;
  if (limit.seen)
  {
    for (int i = 0; i < 60; ++i)
      (ratio((low + high) / 2) < wanted ? low : high) = (low + high) / 2;
    limit.order = low;
  }
  const double r = std::pow(h[1] / h[2], limit.order);
  limit.value    = f[2] + (f[2] - f[1]) / (r - 1);
  return limit;
}

inline std::string number_text(double value, int decimals)
{
  char text[40];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

inline std::string markdown_row(const std::vector<std::string> &cells)
{
  std::string text = "|";
  for (const std::string &cell : cells)
    text += " " + cell + " |";
  return text + "\n";
}
} // namespace throughbend
