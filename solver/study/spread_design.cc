#include "solver/study/spread_design.h"

#include "inputs/keys/option_table.h"
#include "inputs/text/input_error.h"
#include "solver/study/held_fixture.h"
#include "solver/study/statistics/law_quantile.h"
#include "solver/study/statistics/sample_sets.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
KeyBasis basis_of(const ScatterLaw &law)
{
  return law.kind == ScatterKind::normal || law.kind == ScatterKind::lognormal
             ? KeyBasis::hermite
             : KeyBasis::legendre;
}

/// The law where the key may have a value at all. Cuts off less than 1 in 10 000: the case
/// was refused otherwise.
ScatterLaw within_range(ScatterLaw law, const std::string &key)
{
  const Range &range = std::get<NumberSlot>(find_option(key)->slot).range;
  law.low            = std::max(law.low, range.low);
  law.high           = std::min(law.high, range.high);
  return law;
}

std::size_t place_of(const std::vector<KeySpread> &spreads, const std::string &key)
{
  return static_cast<std::size_t>(std::find_if(spreads.begin(), spreads.end(),
                                               [&](const KeySpread &s)
                                               { return s.key == key; }) -
                                  spreads.begin());
}

void refuse_what_is_no_case(const StudyCase &base, const SpreadDesign &design)
{
  std::size_t count = 0;
  std::string first;
  for (const StudyPoint &point : design.points)
  {
    const CaseReading reading = base.at(design.keys, point);
    if (reading.value)
      continue;
    if (++count == 1)
      first = error_list(reading.errors);
  }
  if (count > 0)
    throw InputError(
        fmt::format("{} of {} samples are not valid cases; narrow the laws in [spread], "
                    "or cut them with limits. The first:\n{}",
                    count, design.points.size(), first));
}
} // namespace

SpreadDesign spread_design(const StudyCase &base, const std::vector<KeySpread> &spreads,
                           const std::size_t passes, const std::uint64_t seed,
                           const UnitSystem units)
{
  if (spreads.empty())
    throw InputError("the case has no section [spread], so nothing scatters. For example:\n"
                     "  [spread]\n  coupon.thickness = +- 0.2 mm\n  material.yield = "
                     "catalogue\n  friction.shoulders = catalogue\n"
                     "or on the command line: --spread.coupon.thickness \"+- 0.2 mm\"");
  SpreadDesign design;
  design.spreads = spreads;
  for (std::size_t i = 0; i < spreads.size(); ++i)
  {
    design.keys.push_back(base.key(spreads[i].key, units));
    if (!spreads[i].follows.empty())
      continue;
    design.own_law.push_back(i);
    design.bases.push_back(basis_of(spreads[i].law));
  }
  design.sets = usual_sets(passes);
  design.cube = sample_points(passes, design.own_law.size(), design.sets, seed);
  for (const std::vector<double> &place : design.cube)
  {
    StudyPoint point;
    point.values.resize(spreads.size());
    for (std::size_t d = 0; d < design.own_law.size(); ++d)
    {
      const KeySpread &s              = spreads[design.own_law[d]];
      point.values[design.own_law[d]] = quantile(within_range(s.law, s.key), place[d]);
    }
    for (std::size_t i = 0; i < spreads.size(); ++i)
      if (!spreads[i].follows.empty())
        point.values[i] = point.values[place_of(spreads, spreads[i].follows)];
    hold_opening(base.own(), design.keys, point);
    design.points.push_back(point);
  }
  refuse_what_is_no_case(base, design);
  return design;
}
} // namespace throughbend
