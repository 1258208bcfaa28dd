#include "solver/study/limit_search.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

namespace throughbend
{
namespace
{
/// So many undecided passes between two sides are enough: what they stand in is told as it
/// is.
constexpr std::size_t most_undecided = 6;
} // namespace

LimitSearch::LimitSearch(const LimitRange &range) : range_(range)
{
  // A quarter of the goal at most, so that two sides are never taken for one.
  quantum_ = range_.whole_numbers
                 ? 1
                 : std::pow(10, std::floor(std::log10(range_.within / 4) + 1e-9));
  if (range_.whole_numbers)
    range_.within = std::max(1., std::floor(range_.within));
  const double last = static_cast<double>(range_.scan - 1);
  for (std::size_t i = 0; i < range_.scan; ++i)
    add(range_.from, range_.to,
        range_.from + (range_.to - range_.from) * static_cast<double>(i) / last);
  states_[range_.from];
  states_[range_.to];
}

/// A value that is short to write: 11.55, not 11.5463.
double LimitSearch::tidy(const double value) const
{
  const double many = std::round(value / quantum_);
  // Division by a whole power of ten rounds to the double that 11.55 reads as.
  return quantum_ < 1 ? many / std::round(1 / quantum_) : many * std::round(quantum_);
}

void LimitSearch::add(const double low, const double high, const double value)
{
  const double near = tidy(value);
  if (near > low && near < high)
    states_[near];
}

void LimitSearch::refine()
{
  std::vector<std::pair<double, double>> open;
  for (auto place = states_.begin(); std::next(place) != states_.end(); ++place)
  {
    const auto &[low, a]  = *place;
    const auto &[high, b] = *std::next(place);
    if (a.known && b.known && a.meets != Meets::not_known && b.meets != Meets::not_known &&
        a.meets != b.meets && high - low > range_.within * (1 + 1e-9))
      open.emplace_back(low, high);
  }
  for (const auto &[low, high] : open)
  {
    add(low, high, low + (high - low) / 3);
    add(low, high, high - (high - low) / 3);
  }
}

/// Where passes without a finding stand between two sides: comes nearer from both.
void LimitSearch::go_round_undecided()
{
  std::vector<std::pair<double, double>> open;
  for (auto low = states_.begin(); low != states_.end();)
  {
    auto        high  = std::next(low);
    std::size_t blank = 0;
    bool        known = low->second.known;
    for (; high != states_.end(); ++high)
    {
      known = known && high->second.known;
      if (!high->second.known || high->second.meets != Meets::not_known)
        break;
      ++blank;
    }
    if (high == states_.end())
      break;
    if (known && blank > 0 && blank < most_undecided &&
        low->second.meets != Meets::not_known && low->second.meets != high->second.meets &&
        high->first - low->first > range_.within)
    {
      double                    widest = 0;
      std::pair<double, double> gap;
      for (auto at = low; at != high; ++at)
        if (std::next(at)->first - at->first > widest)
        {
          widest = std::next(at)->first - at->first;
          gap    = {at->first, std::next(at)->first};
        }
      if (widest > range_.within / 2)
        open.push_back(gap);
    }
    low = high;
  }
  for (const auto &[low, high] : open)
    add(low, high, (low + high) / 2);
}

std::optional<double> LimitSearch::next()
{
  const auto waiting = [&]
  {
    return std::find_if(states_.begin(), states_.end(),
                        [](const auto &place) { return !place.second.asked; });
  };
  auto place = waiting();
  if (place == states_.end())
  {
    refine();
    go_round_undecided();
    place = waiting();
  }
  if (place == states_.end())
    return std::nullopt;
  place->second.asked = true;
  return place->first;
}

void LimitSearch::take(const double value, const std::size_t pass, const Meets meets)
{
  states_[value] = {true, true, pass, meets};
}

std::size_t LimitSearch::planned() const
{
  // Each open interval still costs two passes for every third that it is to become.
  double more = 0;
  for (const LimitChange &change : changes())
    if (const double width = change.above.value - change.below.value;
        width > range_.within && change.undecided == 0)
      more += 2 * std::ceil(std::log(width / range_.within) / std::log(3.));
  return states_.size() + static_cast<std::size_t>(more);
}

std::vector<LimitPlace> LimitSearch::places() const
{
  std::vector<LimitPlace> places;
  for (const auto &[value, state] : states_)
    if (state.known)
      places.push_back({value, state.pass, state.meets});
  return places;
}

std::vector<LimitPlace> LimitSearch::undecided() const
{
  std::vector<LimitPlace> found;
  for (const LimitPlace &place : places())
    if (place.meets == Meets::not_known)
      found.push_back(place);
  return found;
}

std::vector<LimitChange> LimitSearch::changes() const
{
  std::vector<LimitChange>  changes;
  std::optional<LimitPlace> last;
  std::size_t               blank = 0;
  for (const LimitPlace &place : places())
  {
    if (place.meets == Meets::not_known)
    {
      ++blank;
      continue;
    }
    if (last && last->meets != place.meets)
      changes.push_back({*last, place, blank});
    last  = place;
    blank = 0;
  }
  return changes;
}

LimitPlan::LimitPlan(std::vector<StudyKey> keys, const std::vector<LimitRange> &ranges,
                     StudyCondition condition)
    : keys_(std::move(keys)), condition_(std::move(condition))
{
  for (const LimitRange &range : ranges)
    searches_.emplace_back(range);
}

std::optional<StudyPoint> LimitPlan::next()
{
  for (std::size_t i = 0; i < searches_.size(); ++i)
    if (const std::optional<double> value = searches_[i].next())
    {
      StudyPoint point{
          std::vector<double>(keys_.size(), std::numeric_limits<double>::quiet_NaN())};
      point.values[i] = inside_value(keys_[i], *value);
      under_way_.push_back({point, i, *value});
      return point;
    }
  return std::nullopt;
}

void LimitPlan::take(const StudyPoint &point, const std::size_t number,
                     const StudyPass &pass)
{
  for (auto it = under_way_.begin(); it != under_way_.end(); ++it)
    if (is_same(it->point, point))
    {
      searches_[it->search].take(it->value, number, condition_.judge(pass));
      under_way_.erase(it);
      return;
    }
}

std::size_t LimitPlan::planned() const
{
  std::size_t all = 0;
  for (const LimitSearch &search : searches_)
    all += search.planned();
  return all;
}
} // namespace throughbend
