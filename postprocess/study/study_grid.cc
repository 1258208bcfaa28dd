#include "postprocess/study/study_grid.h"

#include "inputs/json_members.h"

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
  const JsonMembers answers  = record.answers.empty()
                                   ? JsonMembers()
                                   : JsonMembers(record.answers, "answers of the study");
  std::size_t       n_places = 1;
  for (std::size_t k = 0; k < record.keys.size(); ++k)
  {
    levels_.push_back(levels_of(record, answers, k));
    n_places *= levels_.back().size();
  }
  pass_.assign(n_places, no_pass);
  for (std::size_t p = 0; p < record.passes.size(); ++p)
  {
    const StudyPass &pass = record.passes[p];
    if (pass.values.size() != levels_.size())
      continue;
    std::vector<std::size_t> place;
    for (std::size_t k = 0; k < levels_.size(); ++k)
      place.push_back(static_cast<std::size_t>(
          std::find_if(levels_[k].begin(), levels_[k].end(),
                       [&](const double level) { return same(level, pass.values[k]); }) -
          levels_[k].begin()));
    bool lies_in = true;
    for (std::size_t k = 0; k < levels_.size(); ++k)
      lies_in = lies_in && place[k] < levels_[k].size();
    if (lies_in)
      pass_[index(place)] = p;
  }
}

std::size_t StudyGrid::index(const std::vector<std::size_t> &place) const
{
  std::size_t index = 0;
  for (std::size_t k = levels_.size(); k-- > 0;)
    index = index * levels_[k].size() + (k < place.size() ? place[k] : 0);
  return index;
}

std::size_t StudyGrid::pass(const std::vector<std::size_t> &place) const
{
  return pass_.empty() ? no_pass : pass_[index(place)];
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
