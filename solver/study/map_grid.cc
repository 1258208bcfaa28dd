#include "solver/study/map_grid.h"

#include <algorithm>
#include <utility>

namespace throughbend
{
namespace
{
constexpr std::size_t first_stride = 4; ///< levels between the first passes of a map
}

std::string map_finding(const StudyPass &pass)
{
  std::string finding = pass.outcome + (pass.held.empty() ? "" : ", " + pass.held);
  // A coupon that goes through with a leg ironed is not one that goes through; which leg is
  // all the same.
  if (pass.outcome == "through" && !pass.events.empty())
    finding += ", " + pass.events.front().substr(0, pass.events.front().find(','));
  return finding + (pass.metal == "beyond" ? ", metal beyond" : "");
}

MapPlan::MapPlan(std::vector<std::vector<double>> levels, const MapFill fill)
    : levels_(std::move(levels)), fill_(fill)
{
  levels_.resize(3); // of keys that are not there: no level, which counts as one
  if (fill_ == MapFill::whole)
  {
    for (std::size_t k = 0; k < this->levels(2); ++k)
      for (std::size_t j = 0; j < this->levels(1); ++j)
        for (std::size_t i = 0; i < this->levels(0); ++i)
          states_[{i, j, k}];
    return;
  }
  std::array<std::vector<std::size_t>, 3> stops;
  for (std::size_t d = 0; d < 3; ++d)
  {
    for (std::size_t i = 0; i + 1 < this->levels(d); i += first_stride)
      stops[d].push_back(i);
    stops[d].push_back(this->levels(d) - 1);
  }
  const auto begins = [&](std::size_t d)
  { return std::max<std::size_t>(stops[d].size(), 2) - 1; };
  const auto end = [&](std::size_t d, std::size_t i)
  { return stops[d][std::min(i + 1, stops[d].size() - 1)]; };
  for (std::size_t k = 0; k < begins(2); ++k)
    for (std::size_t j = 0; j < begins(1); ++j)
      for (std::size_t i = 0; i < begins(0); ++i)
      {
        const Block block{{stops[0][i], stops[1][j], stops[2][k]},
                          {end(0, i), end(1, j), end(2, k)}};
        for (const Index &corner : corners(block))
          states_[corner];
        blocks_.push_back(block);
      }
}

std::size_t MapPlan::levels(const std::size_t key) const
{
  return std::max<std::size_t>(levels_[key].size(), 1);
}

std::size_t MapPlan::size() const
{
  return levels(0) * levels(1) * levels(2);
}

StudyPoint MapPlan::point_at(const Index &index) const
{
  StudyPoint point;
  for (std::size_t d = 0; d < 3; ++d)
    if (!levels_[d].empty())
      point.values.push_back(levels_[d][index[d]]);
  return point;
}

std::vector<MapPlan::Index> MapPlan::corners(const Block &block) const
{
  std::vector<Index> all;
  for (const std::size_t i : {block.low[0], block.high[0]})
    for (const std::size_t j : {block.low[1], block.high[1]})
      for (const std::size_t k : {block.low[2], block.high[2]})
        all.push_back({i, j, k});
  return all;
}

const std::string *MapPlan::known_at(const Index &index) const
{
  if (const auto state = states_.find(index); state != states_.end())
    return state->second.pass ? &state->second.finding : nullptr;
  const auto guess = taken_.find(index);
  return guess == taken_.end() ? nullptr : &guess->second;
}

bool MapPlan::is_cell(const Block &block) const
{
  for (std::size_t d = 0; d < 3; ++d)
    if (block.high[d] - block.low[d] > 1)
      return false;
  return true;
}

bool MapPlan::contains(const Block &block, const Index &index) const
{
  for (std::size_t d = 0; d < 3; ++d)
    if (index[d] < block.low[d] || index[d] > block.high[d])
      return false;
  return true;
}

/// A new corner of a part of the block: to be pushed, unless it is the middle of an edge
/// whose ends agree.
void MapPlan::ask_middle(const Block &block, const Index &index)
{
  if (states_.count(index) > 0)
    return;
  Index       low = index, high = index;
  std::size_t between = 0;
  for (std::size_t d = 0; d < 3; ++d)
    if (index[d] != block.low[d] && index[d] != block.high[d])
    {
      ++between;
      low[d]  = block.low[d];
      high[d] = block.high[d];
    }
  const std::string *const a = known_at(low), *const b = known_at(high);
  if (between == 1 && a != nullptr && b != nullptr && *a == *b)
    taken_.emplace(index, *a);
  else
  {
    states_[index];
    taken_.erase(index);
  }
}

/// In two along every key that has a level in between.
void MapPlan::cut(const Block &block, std::vector<Block> &into)
{
  std::vector<Block> parts = {block};
  for (std::size_t d = 0; d < 3; ++d)
    if (block.high[d] - block.low[d] > 1)
    {
      const std::size_t  middle = (block.low[d] + block.high[d]) / 2;
      std::vector<Block> halves;
      for (const Block &part : parts)
      {
        halves.push_back(part);
        halves.back().high[d] = middle;
        halves.push_back(part);
        halves.back().low[d] = middle;
      }
      parts = std::move(halves);
    }
  for (const Block &part : parts)
  {
    for (const Index &corner : corners(part))
      ask_middle(block, corner);
    into.push_back(part);
  }
}

/// Cuts every block in which two findings differ, and has the corners of such cells pushed.
/// True: there is something new.
bool MapPlan::settle()
{
  bool               any = false;
  std::vector<Block> after;
  for (const Block &block : blocks_)
  {
    bool whole = true; // all corners are known
    for (const Index &corner : corners(block))
      whole = whole && known_at(corner) != nullptr;
    bool               differs = false;
    const std::string *first   = nullptr;
    const auto         look    = [&](const Index &index)
    {
      const std::string *const finding = contains(block, index) ? known_at(index) : nullptr;
      if (finding == nullptr)
        return;
      differs = differs || (first != nullptr && *first != *finding);
      first   = finding;
    };
    for (const auto &[index, state] : states_)
      look(index);
    for (const auto &[index, finding] : taken_)
      look(index);
    if (!whole || !differs)
    {
      after.push_back(block);
      continue;
    }
    if (!is_cell(block))
    {
      cut(block, after);
      any = true;
      continue;
    }
    after.push_back(block);
    for (const Index &corner : corners(block))
      if (states_.count(corner) == 0)
      {
        states_[corner];
        taken_.erase(corner);
        any = true;
      }
  }
  blocks_ = std::move(after);
  return any;
}

std::optional<StudyPoint> MapPlan::next()
{
  if (extras_asked_ < extra_.size())
  {
    under_way_.push_back({extra_[extras_asked_], std::nullopt});
    return extra_[extras_asked_++];
  }
  for (;;)
  {
    for (auto &[index, state] : states_)
      if (!state.asked)
      {
        state.asked = true;
        under_way_.push_back({point_at(index), index});
        return under_way_.back().point;
      }
    if (!settle())
      return std::nullopt;
  }
}

void MapPlan::take(const StudyPoint &point, const std::size_t number, const StudyPass &pass)
{
  for (auto task = under_way_.begin(); task != under_way_.end(); ++task)
    if (is_same(task->point, point))
    {
      if (task->index)
      {
        State &state  = states_[*task->index];
        state.pass    = number;
        state.finding = map_finding(pass);
      }
      under_way_.erase(task);
      return;
    }
}

std::size_t MapPlan::planned() const
{
  return states_.size() + extra_.size();
}

std::optional<std::size_t> MapPlan::pass_at(const Index &index) const
{
  const auto state = states_.find(index);
  return state == states_.end() ? std::nullopt : state->second.pass;
}

std::string MapPlan::finding_at(const Index &index) const
{
  if (const auto state = states_.find(index); state != states_.end())
    return state->second.finding;
  if (const std::string *const finding = known_at(index))
    return *finding;
  for (const Block &block : blocks_)
    if (contains(block, index))
    {
      const std::string *const finding = known_at(block.low);
      return finding == nullptr ? "" : *finding;
    }
  return "";
}

std::vector<std::size_t> MapPlan::passes_around(const Index &index) const
{
  if (const auto own = pass_at(index))
    return {*own};
  const std::string finding = finding_at(index);
  for (const Block &block : blocks_)
  {
    if (!contains(block, index))
      continue;
    std::vector<std::size_t> around;
    bool                     agree = true;
    for (const auto &[place, state] : states_)
      if (state.pass && contains(block, place))
      {
        around.push_back(*state.pass);
        agree = agree && state.finding == finding;
      }
    if (agree && !around.empty())
      return around;
  }
  return {};
}
} // namespace throughbend
