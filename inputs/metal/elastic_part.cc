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

using Row = std::vector<Pull>::const_iterator;

/// Up to the largest stress, those between two shares of the proof stress.
std::vector<Pull> window(const std::vector<Pull> &pulls, const Row peak, const double from,
                         const double to)
{
  std::vector<Pull> rows;
  for (auto pull = pulls.begin(); pull <= peak && pull->stress <= to; ++pull)
    if (pull->stress >= from)
      rows.push_back(*pull);
  return rows;
}

/// No row is farther from their line than this [MPa].
bool is_straight(const std::vector<Pull> &rows, const double off)
{
  const StraightLine line = line_through(rows);
  return std::all_of(
      rows.begin(), rows.end(),
      [&](const Pull &pull)
      { return std::abs(line.at_zero + line.slope * pull.strain - pull.stress) <= off; });
}

/// What the slope is read from; none where the rows do not tell.
std::vector<Pull> elastic_rows(const std::vector<Pull> &pulls, const Row peak,
                               const double proof)
{
  constexpr std::size_t many = 4, few = 3;
  constexpr double      as_straight = 0.02;
  if (const auto rows = window(pulls, peak, 0.2 * proof, 0.5 * proof); rows.size() >= many)
    return rows;
  for (const double from : {0., 0.05}) // a slack grip lies below the second
    if (const auto rows = window(pulls, peak, from * proof, 0.8 * proof);
        rows.size() >= few && is_straight(rows, as_straight * proof))
      return rows;
  return {};
}

/// Slope and toe with the proof stress that they give, from a first guess of it.
Elastic elastic_in_turns(const std::vector<Pull> &pulls, const Row peak, double proof)
{
  Elastic found;
  for (int turn = 0; turn < 8; ++turn)
  {
    const std::vector<Pull> rows = elastic_rows(pulls, peak, proof);
    if (rows.empty())
      return {};
    const StraightLine line = line_through(rows);
    if (!(line.slope > 0) || !std::isfinite(line.slope))
      return {};
    found = {ElasticPart::measured, line.slope, -line.at_zero / line.slope};
    proof = proof_stress(pulls, found.slope, found.toe);
  }
  return found;
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
  const auto peak =
      std::max_element(pulls.begin(), pulls.end(),
                       [](const Pull &a, const Pull &b) { return a.stress < b.stress; });
  for (const double first_guess :
       {0.6, 0.7, 0.8, 0.9}) // of its strength: more where a metal hardens little
    if (const Elastic found = elastic_in_turns(pulls, peak, first_guess * peak->stress);
        found.part == ElasticPart::measured)
      return found;
  return {ElasticPart::assumed, young, 0};
}

} // namespace throughbend
