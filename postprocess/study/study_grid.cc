#include "postprocess/study/study_grid.h"

#include "inputs/text/json_members.h"
#include "postprocess/study/finding_mark.h"

#include <algorithm>
#include <cmath>

namespace throughbend
{
namespace
{
bool same(const double a, const double b)
{
  return std::abs(a - b) <= 1e-9 * std::max({std::abs(a), std::abs(b), 1e-9});
}

std::vector<double> levels_of(const StudyRecord &record, const JsonMembers &answers,
                              const std::size_t key)
{
  std::vector<double> levels;
  const std::string   list = "levels." + record.keys[key].key + ".";
  for (std::size_t i = 0; answers.has(list + std::to_string(i)); ++i)
    levels.push_back(answers.number(list + std::to_string(i)));
  if (levels.empty())
    for (const StudyPass &pass : record.passes)
      if (key < pass.values.size() && std::isfinite(pass.values[key]))
        levels.push_back(pass.values[key]);
  std::sort(levels.begin(), levels.end());
  levels.erase(std::unique(levels.begin(), levels.end(), same), levels.end());
  return levels;
}
} // namespace

StudyGrid::StudyGrid(const StudyRecord &record)
{
  const JsonMembers answers = record.answers.empty()
                                  ? JsonMembers()
                                  : JsonMembers(record.answers, "the answers of the study");
  for (std::size_t k = 0; k < std::min<std::size_t>(record.keys.size(), 3); ++k)
    levels_.push_back(levels_of(record, answers, k));
  pass_.assign(count(0) * count(1) * count(2), no_pass);
  for (std::size_t p = 0; p < record.passes.size(); ++p)
  {
    const StudyPass &pass = record.passes[p];
    Place            place{};
    bool             lies_in = pass.values.size() == levels_.size();
    for (std::size_t k = 0; lies_in && k < levels_.size(); ++k)
    {
      const auto at =
          std::find_if(levels_[k].begin(), levels_[k].end(),
                       [&](const double level) { return same(level, pass.values[k]); });
      lies_in  = at != levels_[k].end();
      place[k] = static_cast<std::size_t>(at - levels_[k].begin());
    }
    if (lies_in)
      pass_[index(place)] = p;
  }
  // A refined map begins with blocks of four levels, and cuts those in which passes differ.
  const std::size_t stride = answers.truth("refined").value_or(false) ? 4 : 1;
  std::array<std::vector<std::size_t>, 3> stops;
  for (std::size_t d = 0; d < 3; ++d)
  {
    for (std::size_t i = 0; i + 1 < count(d); i += stride)
      stops[d].push_back(i);
    if (count(d) > 0)
      stops[d].push_back(count(d) - 1);
  }
  const auto next = [&](const std::size_t d, const std::size_t i)
  { return stops[d][std::min(i + 1, stops[d].size() - 1)]; };
  const auto begins = [&](const std::size_t d)
  { return stops[d].empty() ? 0 : std::max<std::size_t>(stops[d].size(), 2) - 1; };
  for (std::size_t k = 0; k < begins(2); ++k)
    for (std::size_t j = 0; j < begins(1); ++j)
      for (std::size_t i = 0; i < begins(0); ++i)
        cut(record, {{stops[0][i], stops[1][j], stops[2][k]},
                     {next(0, i), next(1, j), next(2, k)}});
}

bool StudyGrid::agrees(const StudyRecord &record, const Block &block) const
{
  const StudyPass *first = nullptr;
  for (std::size_t k = block.low[2]; k <= block.high[2]; ++k)
    for (std::size_t j = block.low[1]; j <= block.high[1]; ++j)
      for (std::size_t i = block.low[0]; i <= block.high[0]; ++i)
        if (const std::size_t number = pass({i, j, k}); number != no_pass)
        {
          if (first != nullptr && !find_the_same(*first, record.passes[number]))
            return false;
          first = &record.passes[number];
        }
  return first != nullptr;
}

std::size_t StudyGrid::worst(const StudyRecord &record, const Block &block) const
{
  std::size_t found = no_pass;
  for (std::size_t k = block.low[2]; k <= block.high[2]; ++k)
    for (std::size_t j = block.low[1]; j <= block.high[1]; ++j)
      for (std::size_t i = block.low[0]; i <= block.high[0]; ++i)
        if (const std::size_t number = pass({i, j, k});
            number != no_pass &&
            (found == no_pass ||
             mark_of(record.passes[number]).rank > mark_of(record.passes[found]).rank))
          found = number;
  return found;
}

void StudyGrid::cut(const StudyRecord &record, const Block &block)
{
  std::size_t key = 3; // one along which there is something between
  for (std::size_t d = 3; d-- > 0;)
    if (block.high[d] - block.low[d] > 1)
      key = d;
  bool whole = true; // a corner without a pass: the study is under way
  for (const std::size_t i : {block.low[0], block.high[0]})
    for (const std::size_t j : {block.low[1], block.high[1]})
      for (const std::size_t k : {block.low[2], block.high[2]})
        whole = whole && pass({i, j, k}) != no_pass;
  const bool same = agrees(record, block);
  if (key == 3 || (same && whole))
  {
    if (whole)
    {
      blocks_.push_back(block);
      agrees_.push_back(same);
      worst_.push_back(worst(record, block));
    }
    return;
  }
  // Along all keys at once, as the study does.
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
    cut(record, part);
}

std::size_t StudyGrid::index(const Place &place) const
{
  return (place[2] * count(1) + place[1]) * count(0) + place[0];
}

std::size_t StudyGrid::pass(const Place &place) const
{
  return pass_.empty() ? no_pass : pass_[index(place)];
}

std::size_t StudyGrid::pass_around(const Place &place) const
{
  for (std::size_t b = 0; b < blocks_.size(); ++b)
  {
    const Block &block = blocks_[b];
    bool         in    = agrees_[b];
    for (std::size_t d = 0; d < 3; ++d)
      in = in && place[d] >= block.low[d] && place[d] <= block.high[d];
    if (in)
      return worst_[b];
  }
  return no_pass;
}

std::vector<double> cell_borders(const std::vector<double> &levels)
{
  if (levels.empty())
    return {};
  if (levels.size() == 1)
  {
    const double half = levels[0] == 0 ? 0.5 : 0.05 * std::abs(levels[0]);
    return {levels[0] - half, levels[0] + half};
  }
  std::vector<double> borders = {levels[0] - (levels[1] - levels[0]) / 2};
  for (std::size_t i = 1; i < levels.size(); ++i)
    borders.push_back((levels[i - 1] + levels[i]) / 2);
  const std::size_t last = levels.size() - 1;
  borders.push_back(levels[last] + (levels[last] - levels[last - 1]) / 2);
  return borders;
}
} // namespace throughbend
