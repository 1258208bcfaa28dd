#include "inputs/metal/elastic_part.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
constexpr double offset_strain = 2e-3; // of the proof stress

/// Where the curve first meets a line of this slope from a strain of 0.2 % behind the toe.
double proof_stress(const std::vector<Pull> &pulls, const double slope, const double toe)
{
  for (std::size_t i = 0; i < pulls.size(); ++i)
    if (pulls[i].strain - toe - pulls[i].stress / slope >= offset_strain)
    {
      if (i == 0)
        return pulls[i].stress;
      const auto offset = [&](const Pull &pull)
      { return pull.strain - toe - pull.stress / slope; };
      const double a = offset(pulls[i - 1]), b = offset(pulls[i]);
      const double way = b > a ? (offset_strain - a) / (b - a) : 1;
      return pulls[i - 1].stress + way * (pulls[i].stress - pulls[i - 1].stress);
    }
  return pulls.back().stress;
}

} // namespace

StraightLine line_through(const std::vector<Pull> &pulls)
{
  double n = 0, x = 0, y = 0, xx = 0, xy = 0;
  for (const Pull &pull : pulls)
  {
    ++n;
    x += pull.strain;
    y += pull.stress;
    xx += pull.strain * pull.strain;
    xy += pull.strain * pull.stress;
  }
  const double slope = (n * xy - x * y) / (n * xx - x * x);
  return {slope, (y - slope * x) / n};
}

Elastic elastic_part(const std::vector<Pull> &pulls, const double young)
{
  Elastic    found{ElasticPart::assumed, young, 0};
  const auto peak =
      std::max_element(pulls.begin(), pulls.end(),
                       [](const Pull &a, const Pull &b) { return a.stress < b.stress; });
  double proof = 0.6 * peak->stress;
  for (int turn = 0; turn < 8; ++turn)
  {
    std::vector<Pull> window;
    for (auto pull = pulls.begin(); pull <= peak && pull->stress <= 0.5 * proof; ++pull)
      if (pull->stress >= 0.2 * proof)
        window.push_back(*pull);
    if (window.size() < 4)
      return {ElasticPart::assumed, young, 0};
    const StraightLine line = line_through(window);
    if (!(line.slope > 0) || !std::isfinite(line.slope))
      return {ElasticPart::assumed, young, 0};
    found = {ElasticPart::measured, line.slope, -line.at_zero / line.slope};
    proof = proof_stress(pulls, found.slope, found.toe);
  }
  return found;
}

} // namespace throughbend
