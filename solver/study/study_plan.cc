#include "solver/study/study_plan.h"

#include <utility>

namespace throughbend
{
ListPlan::ListPlan(std::vector<StudyPoint> points)
    : points_(std::move(points)), numbers_(points_.size())
{
}

std::optional<StudyPoint> ListPlan::next()
{
  if (next_ == points_.size())
    return std::nullopt;
  under_way_.push_back(next_);
  return points_[next_++];
}

void ListPlan::take(const StudyPoint &point, const std::size_t number, const StudyPass &)
{
  for (auto place = under_way_.begin(); place != under_way_.end(); ++place)
    if (is_same(points_[*place], point))
    {
      numbers_[*place] = number;
      under_way_.erase(place);
      return;
    }
}

bool is_same(const StudyPoint &a, const StudyPoint &b)
{
  if (a.values.size() != b.values.size() || a.words != b.words)
    return false;
  for (std::size_t i = 0; i < a.values.size(); ++i)
    if (a.values[i] != b.values[i] &&
        !(a.values[i] != a.values[i] && b.values[i] != b.values[i]))
      return false;
  return true;
}
} // namespace throughbend
