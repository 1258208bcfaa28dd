#pragma once
// Every so-many-th point of a plan, for one of several machines that share it. Only for
// plans whose points do not depend on what is found.

#include "solver/study/study_plan.h"

namespace throughbend
{
class PartPlan : public StudyPlan
{
public:
  /// The `part`-th of `of`, from 1. The plan must outlive it.
  PartPlan(StudyPlan &whole, std::size_t part, std::size_t of)
      : whole_(whole), part_(part), of_(of)
  {
  }

  std::optional<StudyPoint> next() override
  {
    while (std::optional<StudyPoint> point = whole_.next())
      if (count_++ % of_ == part_ - 1)
        return point;
    return std::nullopt;
  }
  void take(const StudyPoint &point, std::size_t number, const StudyPass &pass) override
  {
    whole_.take(point, number, pass);
  }
  std::size_t planned() const override { return (whole_.planned() + of_ - part_) / of_; }

private:
  StudyPlan  &whole_;
  std::size_t part_, of_, count_ = 0;
};
} // namespace throughbend
